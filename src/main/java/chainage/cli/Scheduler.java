package chainage.cli;

import chainage.nightly.Job;
import java.io.File;
import java.io.IOException;
import java.io.InterruptedIOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.DirectoryNotEmptyException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** The scheduler of the machine, asked through its own programs: systemd, cron or launchd. */
enum Scheduler {
    SYSTEMD {
        @Override
        boolean usable(Host host) {
            return host.succeeds("systemctl", "--user", "show-environment");
        }

        @Override
        List<String> plan(Host host, Job job) {
            List<String> lines = new ArrayList<>();
            job.systemd().forEach((name, text) -> {
                lines.add("file " + units(host).resolve(name) + ":");
                text.lines().forEach(l -> lines.add("  " + l));
            });
            lines.add("then: systemctl --user enable --now " + Job.TIMER);
            return lines;
        }

        @Override
        void install(Host host, Job job) throws IOException {
            Files.createDirectories(units(host));
            for (Map.Entry<String, String> unit : job.systemd().entrySet()) {
                Files.writeString(units(host).resolve(unit.getKey()), unit.getValue());
            }
            try {
                host.run("", "systemctl", "--user", "daemon-reload");
                host.run("", "systemctl", "--user", "enable", "--now", Job.TIMER);
            } catch (IOException e) {
                remove(host);
                throw e;
            }
        }

        @Override
        boolean remove(Host host) throws IOException {
            boolean there = Files.exists(units(host).resolve(Job.TIMER));
            if (there && host.find("systemctl") != null) {
                host.succeeds("systemctl", "--user", "disable", "--now", Job.TIMER);
            }
            for (String name : List.of(Job.TIMER, Job.SERVICE)) {
                there |= Files.deleteIfExists(units(host).resolve(name));
            }
            if (there) {
                host.succeeds("systemctl", "--user", "daemon-reload");
                Host.deleteEmpty(units(host).resolve("timers.target.wants"));
                Host.deleteEmpty(units(host));
                Host.deleteEmpty(systemd(host));
            }
            return there;
        }

        private static Path units(Host host) {
            return systemd(host).resolve("user");
        }

        private static Path systemd(Host host) {
            return host.folder("XDG_CONFIG_HOME", ".config").resolve("systemd");
        }
    },

    CRON {
        @Override
        boolean usable(Host host) {
            return host.find("crontab") != null;
        }

        @Override
        List<String> plan(Host host, Job job) {
            return List.of("a line in your crontab:", "  " + job.cron());
        }

        @Override
        void install(Host host, Job job) throws IOException {
            host.run(job.crontabWith(crontab(host)), "crontab", "-");
        }

        @Override
        boolean remove(Host host) throws IOException {
            if (host.find("crontab") == null) {
                return false;
            }
            String before = crontab(host);
            String after = Job.crontabWithout(before);
            if (after.equals(before)) {
                return false;
            }
            if (after.isBlank()) {
                host.run("", "crontab", "-r");
            } else {
                host.run(after, "crontab", "-");
            }
            return true;
        }

        /** The rider's table; empty when there is none, which crontab reports as a failure. */
        private static String crontab(Host host) throws IOException {
            Host.Said said = host.ask("", "crontab", "-l");
            if (said.code() != 0 && !said.err().toLowerCase(Locale.ROOT).contains("no crontab")) {
                throw new IOException("crontab -l failed: " + said.err());
            }
            return said.code() == 0 ? said.out() : "";
        }
    },

    LAUNCHD {
        @Override
        boolean usable(Host host) {
            return host.find("launchctl") != null;
        }

        @Override
        List<String> plan(Host host, Job job) {
            List<String> lines = new ArrayList<>();
            lines.add("file " + list(host) + ":");
            job.launchd().lines().forEach(l -> lines.add("  " + l));
            lines.add("then: launchctl load -w " + list(host));
            return lines;
        }

        @Override
        void install(Host host, Job job) throws IOException {
            remove(host);
            Files.createDirectories(host.home().resolve("Library").resolve("LaunchAgents"));
            Files.writeString(list(host), job.launchd());
            host.run("", "launchctl", "load", "-w", list(host).toString());
        }

        @Override
        boolean remove(Host host) throws IOException {
            if (!Files.exists(list(host))) {
                return false;
            }
            host.succeeds("launchctl", "unload", "-w", list(host).toString());
            Files.delete(list(host));
            return true;
        }

        private static Path list(Host host) {
            return host.home().resolve("Library").resolve("LaunchAgents").resolve(Job.LAUNCHD + ".plist");
        }
    };

    /** True when it runs here, for this user. */
    abstract boolean usable(Host host);

    /** What installing writes and starts, in lines. */
    abstract List<String> plan(Host host, Job job);

    /** Sets the job up, in place of an earlier one; leaves nothing behind when it fails. */
    abstract void install(Host host, Job job) throws IOException;

    /** Takes the job away; false when there was none. */
    abstract boolean remove(Host host) throws IOException;

    String word() {
        return name().toLowerCase(Locale.ROOT);
    }

    /**
     * The machine as this user has it.
     *
     * @param environment of the process
     */
    record Host(Map<String, String> environment) {
        /** What a program answered. */
        record Said(int code, String out, String err) {}

        Path home() {
            return Path.of(environment.getOrDefault("HOME", System.getProperty("user.home", ".")));
        }

        /** A folder of the base directory standard: by its variable, else under home. */
        Path folder(String variable, String usual) {
            String told = environment.getOrDefault(variable, "");
            return told.isEmpty() ? home().resolve(usual) : Path.of(told);
        }

        /** A program on the path; null when it is not there. */
        @Nullable
        Path find(String program) {
            for (String folder : environment.getOrDefault("PATH", "").split(File.pathSeparator, -1)) {
                Path path = Path.of(folder.isEmpty() ? "." : folder, program);
                if (Files.isExecutable(path)) {
                    return path;
                }
            }
            return null;
        }

        boolean succeeds(String... command) {
            try {
                return find(command[0]) != null && ask("", command).code() == 0;
            } catch (IOException e) {
                return false;
            }
        }

        void run(String input, String... command) throws IOException {
            Said said = ask(input, command);
            if (said.code() != 0) {
                throw new IOException(String.join(" ", command) + " failed"
                        + (said.err().isBlank() ? "" : ": " + said.err().strip()));
            }
        }

        Said ask(String input, String... command) throws IOException {
            Path program = find(command[0]);
            if (program == null) {
                throw new IOException(command[0] + " is not on your path");
            }
            List<String> words = new ArrayList<>(List.of(command));
            words.set(0, program.toString());
            // The answer on the error stream goes to a file, so that neither pipe can fill up and block.
            Path errors = Files.createTempFile("chainage-", ".err");
            try {
                ProcessBuilder builder = new ProcessBuilder(words).redirectError(errors.toFile());
                builder.environment().putAll(environment);
                Process process = builder.start();
                try (var in = process.getOutputStream()) {
                    in.write(input.getBytes(StandardCharsets.UTF_8));
                }
                String out = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
                int code = process.waitFor();
                return new Said(code, out, Files.readString(errors));
            } catch (InterruptedException e) {
                throw new InterruptedIOException(command[0] + " was interrupted");
            } finally {
                Files.deleteIfExists(errors);
            }
        }

        /** Deletes a folder that is empty; any other stays. */
        static void deleteEmpty(Path folder) {
            try {
                Files.deleteIfExists(folder);
            } catch (DirectoryNotEmptyException | NoSuchFileException e) {
                // Somebody else's things lie in it, or it is gone already.
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
        }
    }
}
