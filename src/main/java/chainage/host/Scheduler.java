package chainage.host;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;

/** The scheduler of the machine, asked through its own programs. */
public enum Scheduler {
    SYSTEMD {
        @Override
        public boolean usable(Machine machine) {
            return machine.succeeds("systemctl", "--user", "show-environment");
        }

        @Override
        public List<String> plan(Machine machine, Job job) {
            List<String> lines = new ArrayList<>();
            job.systemd().forEach((name, text) -> {
                lines.add("file " + units(machine).resolve(name) + ":");
                text.lines().forEach(l -> lines.add("  " + l));
            });
            lines.add("then: systemctl --user enable --now " + Job.TIMER);
            return lines;
        }

        @Override
        public void install(Machine machine, Job job) throws IOException {
            Files.createDirectories(units(machine));
            for (Map.Entry<String, String> unit : job.systemd().entrySet()) {
                Files.writeString(units(machine).resolve(unit.getKey()), unit.getValue());
            }
            try {
                machine.run("", "systemctl", "--user", "daemon-reload");
                machine.run("", "systemctl", "--user", "enable", "--now", Job.TIMER);
            } catch (IOException e) {
                remove(machine);
                throw e;
            }
        }

        @Override
        public boolean remove(Machine machine) throws IOException {
            boolean there = Files.exists(units(machine).resolve(Job.TIMER));
            if (there && machine.find("systemctl") != null) {
                machine.succeeds("systemctl", "--user", "disable", "--now", Job.TIMER);
            }
            for (String name : List.of(Job.TIMER, Job.SERVICE)) {
                there |= Files.deleteIfExists(units(machine).resolve(name));
            }
            if (there) {
                machine.succeeds("systemctl", "--user", "daemon-reload");
                Machine.deleteEmpty(units(machine).resolve("timers.target.wants"));
                Machine.deleteEmpty(units(machine));
                Machine.deleteEmpty(systemd(machine));
            }
            return there;
        }

        private static Path units(Machine machine) {
            return systemd(machine).resolve("user");
        }

        private static Path systemd(Machine machine) {
            return machine.folder("XDG_CONFIG_HOME", ".config").resolve("systemd");
        }
    },

    CRON {
        @Override
        public boolean usable(Machine machine) {
            return machine.find("crontab") != null;
        }

        @Override
        public List<String> plan(Machine machine, Job job) {
            return List.of("a line in your crontab:", "  " + job.cron());
        }

        @Override
        public void install(Machine machine, Job job) throws IOException {
            machine.run(job.crontabWith(crontab(machine)), "crontab", "-");
        }

        @Override
        public boolean remove(Machine machine) throws IOException {
            if (machine.find("crontab") == null) {
                return false;
            }
            String before = crontab(machine);
            String after = Job.crontabWithout(before);
            if (after.equals(before)) {
                return false;
            }
            if (after.isBlank()) {
                machine.run("", "crontab", "-r");
            } else {
                machine.run(after, "crontab", "-");
            }
            return true;
        }

        /** The rider's table; empty when there is none, which crontab reports as a failure. */
        private static String crontab(Machine machine) throws IOException {
            Machine.Said said = machine.ask("", "crontab", "-l");
            if (said.code() != 0 && !said.err().toLowerCase(Locale.ROOT).contains("no crontab")) {
                throw new IOException("crontab -l failed: " + said.err());
            }
            return said.code() == 0 ? said.out() : "";
        }
    },

    LAUNCHD {
        @Override
        public boolean usable(Machine machine) {
            return machine.find("launchctl") != null;
        }

        @Override
        public List<String> plan(Machine machine, Job job) {
            List<String> lines = new ArrayList<>();
            lines.add("file " + list(machine) + ":");
            job.launchd().lines().forEach(l -> lines.add("  " + l));
            lines.add("then: launchctl load -w " + list(machine));
            return lines;
        }

        @Override
        public void install(Machine machine, Job job) throws IOException {
            remove(machine);
            Files.createDirectories(machine.home().resolve("Library").resolve("LaunchAgents"));
            PrivateFile.make(job.printed());
            Files.writeString(list(machine), job.launchd());
            machine.run("", "launchctl", "load", "-w", list(machine).toString());
        }

        @Override
        public boolean remove(Machine machine) throws IOException {
            if (!Files.exists(list(machine))) {
                return false;
            }
            machine.succeeds("launchctl", "unload", "-w", list(machine).toString());
            Files.delete(list(machine));
            return true;
        }

        private static Path list(Machine machine) {
            return machine.home().resolve("Library").resolve("LaunchAgents").resolve(Job.LAUNCHD + ".plist");
        }
    },

    /** Of Windows; never tried there. */
    SCHTASKS {
        @Override
        public boolean usable(Machine machine) {
            return machine.find(PROGRAM) != null;
        }

        @Override
        public List<String> plan(Machine machine, Job job) {
            List<String> lines = new ArrayList<>();
            lines.add("a task (not tried on Windows yet; please tell how it went):");
            job.task().lines().forEach(l -> lines.add("  " + l));
            lines.add("by: schtasks /Create /TN " + Job.TASK + " /XML FILE /F");
            return lines;
        }

        @Override
        public void install(Machine machine, Job job) throws IOException {
            Path file = Files.createTempFile("chainage-", ".xml");
            try {
                // With the mark of the byte order, as the declaration asks for.
                Files.writeString(file, job.task(), StandardCharsets.UTF_16);
                machine.run("", PROGRAM, "/Create", "/TN", Job.TASK, "/XML", file.toString(), "/F");
            } finally {
                Files.delete(file);
            }
        }

        @Override
        public boolean remove(Machine machine) throws IOException {
            if (!machine.succeeds(PROGRAM, "/Query", "/TN", Job.TASK)) {
                return false;
            }
            machine.run("", PROGRAM, "/Delete", "/TN", Job.TASK, "/F");
            return true;
        }
    };

    private static final String PROGRAM = "schtasks.exe";

    /** True when it runs here, for this user. */
    public abstract boolean usable(Machine machine);

    /** What installing writes and starts, in lines. */
    public abstract List<String> plan(Machine machine, Job job);

    /** Sets the job up, in place of an earlier one; leaves nothing behind when it fails. */
    public abstract void install(Machine machine, Job job) throws IOException;

    /** Takes the job away; false when there was none. */
    public abstract boolean remove(Machine machine) throws IOException;

    public String word() {
        return name().toLowerCase(Locale.ROOT);
    }

    /** All of them, as a rider names them. */
    public static String words(String between) {
        return Arrays.stream(values()).map(Scheduler::word).collect(Collectors.joining(between));
    }
}
