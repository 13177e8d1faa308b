package chainage.trust;

import chainage.bench.RideMaker;
import java.io.IOException;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.FileTime;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.Set;

/** Folders with everything in them that a folder can have, and folders that change while they are read. */
final class FolderTrial implements Trial {
    private static final int FILES = 300;

    private final List<Tried> table = new ArrayList<>();
    private Path rides = Path.of("");

    @Override
    public List<Tried> on(Site site) throws Exception {
        rides = site.folder("folder-given").resolve("rides");
        RideMaker.fill(rides, RideMaker::ride, "fit", FILES, 3_600, 60);
        oddThings(site);
        oddNames(site);
        vanishing(site);
        changing(site);
        many(site);
        return table;
    }

    private static void check(List<String> lost, boolean holds, String what) {
        if (!holds) {
            lost.add(what);
        }
    }

    /** Loops, pipes, devices, links that lead nowhere: none is waited for, and the rides beside them come in. */
    private void oddThings(Site site) throws IOException, InterruptedException {
        Path folder = site.folder("odd");
        Path inner = Files.createDirectories(folder.resolve("inner"));
        Files.copy(rides.resolve("000/00001.fit"), inner.resolve("1.fit"));
        Files.createSymbolicLink(inner.resolve("up"), folder);
        Files.createSymbolicLink(folder.resolve("self"), folder.resolve("self"));
        Files.createSymbolicLink(folder.resolve("nowhere.fit"), folder.resolve("gone"));
        Files.createSymbolicLink(folder.resolve("linked.fit"), rides.resolve("000/00002.fit"));
        List<String> lost = new ArrayList<>();
        StringBuilder not = new StringBuilder();
        not.append(DiskTrial.run("mkfifo", folder.resolve("pipe.fit").toString()) == 0 ? "" : "no pipe; ");
        not.append(
                DiskTrial.run("mknod", folder.resolve("zero.fit").toString(), "c", "1", "5") == 0 ? "" : "no device; ");
        Path ledger = site.folder("odd-ledger").resolve("l.sqlite");
        Program.Ended ended = site.on(ledger).run("import", folder.toString());
        check(lost, ended.code() == 65 && ended.out().contains("2 imported"), "odd things: " + ended + ended.out());
        check(lost, ended.err().lines().count() == 2, "two links lead nowhere: " + ended.err());
        for (String one : List.of("pipe.fit", "zero.fit")) {
            if (Files.exists(folder.resolve(one))) {
                Program.Ended named =
                        site.on(ledger).run("import", folder.resolve(one).toString());
                check(
                        lost,
                        named.code() == 0 && named.out().contains("1 not a bike ride"),
                        one + " named: " + named + named.out());
            }
        }
        Program.Ended gone =
                site.on(ledger).run("import", folder.resolve("gone").toString());
        check(lost, gone.code() == 66 && gone.err().contains("does not exist"), "a folder that is not there: " + gone);
        table.add(new Tried("loops, pipes, devices and dead links in the folder", 6, lost, not.toString()));
    }

    /** Names of every kind, in every locale: each file is a file of its own, and the ledger may bear such a name too. */
    private void oddNames(Site site) throws IOException, InterruptedException {
        Path folder = site.folder("names");
        List<String> names = List.of(
                "mes%20v%C3%A9los/%C3%A4.fit",
                "mes%20v%C3%A9los/%C3%B6.fit",
                "mes%20v%C3%A9los/%E8%BB%8A.fit",
                "latin/f%E4hrte.fit",
                "latin/f%F6hrte.fit",
                "with%20space%20.fit",
                "line%0Abreak%1B%5B31m.fit",
                "%E2%80%AEtif.fit",
                "-o.fit",
                "x".repeat(251) + ".fit");
        int number = 0;
        for (String name : names) {
            Path file = Path.of(URI.create(folder.toUri() + name));
            Files.createDirectories(file.getParent());
            Files.copy(rides.resolve(String.format(Locale.ROOT, "000/%05d.fit", number++)), file);
        }
        List<String> lost = new ArrayList<>();
        Path ledgers = site.folder("odd-ledger");
        String expected = "";
        int tried = 0;
        for (List<String> locale : List.of(
                List.of("env", "LC_ALL=C.UTF-8"),
                List.of("env", "LC_ALL=C"),
                List.of("env", "-i", "PATH=" + System.getenv("PATH")))) {
            Path ledger = ledgers.resolve("vélo 車 " + tried++ + ".sqlite");
            Program program = site.on(ledger).after(locale.toArray(String[]::new));
            Program.Ended first = program.run("import", folder.toString());
            check(lost, first.code() == 0 && first.out().contains("10 imported"), locale + ": " + first + first.out());
            Program.Ended again =
                    program.run("import", folder.resolve("mes vélos").toString());
            check(lost, again.code() == 0 && again.out().contains("3 known"), locale + ": " + again + again.out());
            for (List<String> words : List.of(
                    List.of("import", folder.toString(), "--json"),
                    List.of("rides", "--json"),
                    List.of("rides", "--why"),
                    List.of("check"))) {
                Program.Ended said = program.run(words.toArray(String[]::new));
                check(lost, said.code() == 0, locale + " " + words + ": " + said);
                check(lost, isPlain(said.out() + said.err()), locale + " " + words + " prints control characters");
            }
            String facts = Ledgers.facts(ledger);
            check(
                    lost,
                    expected.isEmpty() || expected.equals(facts),
                    locale + ": " + Ledgers.difference(expected, facts));
            expected = facts;
        }
        table.add(new Tried("10 odd names of files in 3 locales, one of them none, as cron has it", tried, lost, ""));
    }

    private static boolean isPlain(String text) {
        return text.chars().allMatch(c -> c == '\n' || (c >= ' ' && c != 0x7F && (c < 0x80 || c > 0x9F)));
    }

    /** The folder goes away in mid-import, and comes back. */
    private void vanishing(Site site) throws IOException, InterruptedException {
        Path calm = site.folder("calm").resolve("l.sqlite");
        Path folder = site.folder("vanishing").resolve("rides");
        Site.copy(rides, Files.createDirectories(folder));
        site.on(calm).must("import", folder.toString());
        String expected = withoutTimes(Ledgers.facts(calm));
        List<String> lost = new ArrayList<>();
        int tries = site.times(3, 30);
        Random random = site.random("vanishing");
        int caught = 0;
        for (int i = 0; i < tries; i++) {
            Path ledger = site.folder("vanished").resolve("l.sqlite");
            Path away = folder.resolveSibling("away");
            Program.Running running = site.on(ledger).start("import", folder.toString());
            boolean ended =
                    running.process().waitFor(300 + random.nextInt(1500), java.util.concurrent.TimeUnit.MILLISECONDS);
            Files.move(folder, away);
            Program.Ended end = running.end();
            Files.move(away, folder);
            caught += ended || end.code() == 0 ? 0 : 1;
            check(lost, Set.of(0, 65, 66).contains(end.code()), "the folder vanished: " + end);
            check(lost, end.code() == 0 || end.err().lines().allMatch(l -> l.startsWith("chainage: ")), end.err());
            site.on(ledger).must("import", folder.toString());
            String facts = withoutTimes(Ledgers.facts(ledger));
            check(lost, facts.equals(expected), "after the folder came back " + Ledgers.difference(expected, facts));
        }
        table.add(new Tried(
                "the folder vanishes in mid-import, and comes back", tries, lost, caught + " were in its middle"));
    }

    private static String withoutTimes(String facts) {
        return facts.replaceAll("\"modified\":\"[^\"]*\"", "\"modified\":\"\"");
    }

    /** Files that are replaced, cut, grown and removed while they are read; at the end an import brings what is there. */
    private void changing(Site site) throws IOException, InterruptedException {
        List<String> lost = new ArrayList<>();
        int tries = site.times(2, 15);
        Random random = site.random("changing");
        int changes = 0;
        for (int i = 0; i < tries; i++) {
            Path folder = site.folder("changing").resolve("rides");
            Site.copy(rides, Files.createDirectories(folder));
            List<Path> files;
            try (var all = Files.walk(folder)) {
                files = all.filter(Files::isRegularFile).sorted().toList();
            }
            Path ledger = site.folder("changed").resolve("l.sqlite");
            Program.Running running = site.on(ledger).start("import", folder.toString());
            while (running.process().isAlive()) {
                Path file = files.get(random.nextInt(files.size()));
                byte[] content =
                        Files.readAllBytes(rides.resolve(folder.relativize(file).toString()));
                switch (random.nextInt(4)) {
                    case 0 -> Files.write(file, java.util.Arrays.copyOf(content, random.nextInt(content.length)));
                    case 1 -> Files.deleteIfExists(file);
                    case 2 -> Files.writeString(file, "<gpx>", StandardCharsets.US_ASCII);
                    default -> {
                        Path whole = file.resolveSibling(".new");
                        Files.write(whole, content);
                        Files.move(whole, file, StandardCopyOption.REPLACE_EXISTING);
                    }
                }
                changes++;
            }
            Program.Ended end = running.end();
            check(lost, Set.of(0, 65).contains(end.code()), "files changed: " + end);
            check(lost, end.err().lines().allMatch(l -> l.startsWith("chainage: ")), end.err());
            for (Path file : files) {
                Files.copy(
                        rides.resolve(folder.relativize(file).toString()), file, StandardCopyOption.REPLACE_EXISTING);
                Files.setLastModifiedTime(file, FileTime.from(Instant.parse("2026-02-01T00:00:00Z")));
            }
            site.on(ledger).must("import", folder.toString());
            Ledgers.faults(ledger).forEach(lost::add);
            Path calm = site.folder("calm").resolve("l.sqlite");
            site.on(calm).must("import", folder.toString());
            Set<String> there = rides(ledger);
            rides(calm).stream().filter(r -> !there.contains(r)).forEach(r -> lost.add("lost " + r));
        }
        table.add(new Tried("files change and vanish while they are read", tries, lost, changes + " changes"));
    }

    private static Set<String> rides(Path ledger) throws IOException {
        return Set.copyOf(Ledgers.facts(ledger)
                .lines()
                .filter(l -> l.startsWith("{\"ride\""))
                .toList());
    }

    /** A wrong folder with everything in it. */
    private void many(Site site) throws IOException, InterruptedException {
        int files = site.times(5_000, 100_000);
        Path folder = site.folder("many");
        for (int i = 0; i < files; i++) {
            Files.writeString(folder.resolve("note-" + i + ".txt"), "note " + i);
        }
        Files.copy(rides.resolve("000/00001.fit"), folder.resolve("ride.fit"));
        Path ledger = site.folder("many-ledger").resolve("l.sqlite");
        List<String> lost = new ArrayList<>();
        for (String expected : List.of("1 imported", "1 known")) {
            Program.Ended ended = site.on(ledger).run("import", folder.toString());
            check(lost, ended.code() == 0 && ended.out().contains(expected), expected + ": " + ended + ended.out());
        }
        table.add(new Tried("other files in one folder, beside a ride", files, lost, ""));
    }
}
