package chainage.bench;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;

/**
 * Measures the built program and prints one table. Arguments: program, folder of the test classes, folder to work in,
 * number of two-hour files, number of small files, repetitions, numbers of full rides for due, and an older program that
 * knows the same ledgers, to measure beside the first, or "none".
 */
final class Bench {
    private static final int TWO_HOURS = 7_200;
    private static final int DAY = 86_400;
    private static final int SMALL_SECONDS = 60;
    /** What a night brings at most. */
    private static final int NEW = 3;

    /** The one that is measured, and the older one, if any. */
    private final List<Path> programs;

    private final Path testClasses;
    private final Path work;
    private final int bigFiles;
    private final int smallFiles;
    private final int repetitions;
    private final List<Integer> fullRides;
    private final int threads = Runtime.getRuntime().availableProcessors();

    private Bench(List<String> args, Path work) {
        this.programs = Stream.of(args.get(0), args.get(7))
                .filter(a -> !a.equals("none"))
                .map(a -> Path.of(a).toAbsolutePath())
                .toList();
        this.testClasses = Path.of(args.get(1));
        this.work = work;
        this.bigFiles = Integer.parseInt(args.get(3));
        this.smallFiles = Integer.parseInt(args.get(4));
        this.repetitions = Integer.parseInt(args.get(5));
        this.fullRides =
                Arrays.stream(args.get(6).split(",")).map(Integer::valueOf).toList();
    }

    public static void main(String[] args) throws Exception {
        Path work = Files.createTempDirectory(Files.createDirectories(Path.of(args[2])), "bench-");
        try {
            new Bench(List.of(args), work).measure();
        } finally {
            delete(work);
        }
    }

    private void measure() throws IOException, InterruptedException {
        for (Path program : programs) {
            putByForAQuickStart(program);
        }
        List<Ratio> table = new ArrayList<>();
        for (int files : new int[] {bigFiles / 50, bigFiles / 5, bigFiles, 2 * bigFiles}) {
            table.add(importOfNewFiles(
                    "fit", RideMaker::ride, files, TWO_HOURS, CrcOfFolder.class, "read and CRC-16 the same bytes"));
        }
        String stax = "pull through the same bytes with the JDK's parser and read all numbers";
        int xmlFiles = Math.max(1, bigFiles / 10);
        table.add(importOfNewFiles("gpx", XmlRideMaker::gpx, xmlFiles, TWO_HOURS, StaxOfFolder.class, stax));
        table.add(importOfNewFiles("tcx", XmlRideMaker::tcx, xmlFiles, TWO_HOURS, StaxOfFolder.class, stax));
        Path small = work.resolve("small");
        say(
                "%d small files: %d bytes",
                smallFiles, RideMaker.fill(small, RideMaker::ride, "fit", smallFiles, 3_600, SMALL_SECONDS));
        List<Path> ledgers = new ArrayList<>();
        for (Path program : programs) {
            Path ledger = work.resolve("small" + ledgers.size() + ".ledger");
            ledgers.add(ledger);
            importAll(program, ledger, small, smallFiles);
            setUp(program, ledger);
        }
        table.add(importOfKnownFiles(ledgers, small, 0));
        table.add(importOfKnownFiles(ledgers, small, NEW));
        // By default 5,000 lines, on as many rides.
        table.addAll(logbook(smallFiles / 2));
        table.add(due("due on " + smallFiles + " short rides", ledgers.get(0), "Chalk"));
        List<Ratio> growth = new ArrayList<>();
        List<Ratio> tags = new ArrayList<>();
        for (int rides : fullRides) {
            Path full = work.resolve("full" + rides + ".ledger");
            // Ten bikes with four chains each.
            LedgerMaker.make(full, rides, 10);
            growth.add(due("due on " + rides + " full rides, 40 chains", full, "Chain 0-0"));
            tags.add(tag("tag last muddy on " + rides + " full rides, 40 chains", full));
            Files.delete(full);
        }
        table.addAll(growth);
        table.addAll(tags);
        System.out.println(Ratio.heading(programs.size() > 1));
        table.forEach(row -> System.out.println(row.row()));
        for (int i = 1; i < growth.size(); i++) {
            System.out.printf(
                    Locale.ROOT,
                    "due on %d rides takes %.2f times as long as on %d%n",
                    fullRides.get(i),
                    growth.get(i).seconds() / growth.get(i - 1).seconds(),
                    fullRides.get(i - 1));
        }
        System.out.printf(
                Locale.ROOT,
                "%d cores, %s %s, %s %s; every run a cold process, files in the page cache%n",
                threads,
                System.getProperty("java.vm.name"),
                System.getProperty("java.runtime.version"),
                System.getProperty("os.name"),
                System.getProperty("os.arch"));
    }

    /** What the program makes in the background after a rider's first run. */
    private void putByForAQuickStart(Path program) throws IOException, InterruptedException {
        Path kept = Path.of(ColdRun.cache(work) + "/chainage/start" + program);
        ColdRun.java(
                        work,
                        "-cp",
                        program.toString(),
                        "chainage.cli.Practice",
                        "make",
                        kept.toString(),
                        program.toString())
                .run();
        if (!Files.exists(kept.resolve("classes.jsa"))) {
            throw new IOException("there is no class archive at " + kept);
        }
    }

    /** Imports of new files, each into a ledger of its own, against the least that a reader of the format must do. */
    private Ratio importOfNewFiles(
            String format, RideMaker.Maker maker, int files, int seconds, Class<?> baseline, String least)
            throws IOException, InterruptedException {
        Path folder = work.resolve(format + files);
        say("%d new %s files: %d bytes", files, format, RideMaker.fill(folder, maker, format, files, DAY, seconds));
        for (int p = 0; p < programs.size(); p++) {
            importAll(programs.get(p), work.resolve(format + files + "-of-" + p + ".ledger"), folder, files);
        }
        ColdRun other = ColdRun.baseline(baseline, testClasses, work, folder.toString(), "" + threads);
        Ratio ratio = ratio(String.format(
                Locale.ROOT, "import of %d new %s files ÷ %s, %d threads", files, format, least, threads));
        for (int i = 0; i < repetitions; i++) {
            List<ColdRun> runs = new ArrayList<>();
            for (Path program : programs) {
                Path ledger = work.resolve(format + files + "-" + i + "-" + runs.size() + ".ledger");
                runs.add(chainage(program, ledger, "import", folder.toString()));
            }
            alternate(ratio, i, runs, other);
        }
        return ratio;
    }

    /** A night: so many new files among those that are known. */
    private Ratio importOfKnownFiles(List<Path> ledgers, Path small, int fresh)
            throws IOException, InterruptedException {
        ColdRun walk = ColdRun.baseline(WalkOfFolder.class, testClasses, work, small.toString());
        Ratio ratio = ratio(String.format(
                Locale.ROOT,
                "import of %d new among %d known, unchanged files ÷ walk of the folder with attributes",
                fresh,
                smallFiles));
        for (int i = 0; i < repetitions; i++) {
            for (int n = 0; n < fresh; n++) {
                int number = smallFiles + i * fresh + n;
                Files.write(
                        small.resolve("new-" + number + ".fit"),
                        RideMaker.ride(number, 3_600L * number, SMALL_SECONDS));
            }
            List<ColdRun> runs = new ArrayList<>();
            for (Path program : programs) {
                runs.add(chainage(program, ledgers.get(runs.size()), "import", small.toString()));
            }
            alternate(ratio, i, runs, walk);
        }
        return ratio;
    }

    /**
     * A logbook of 20 years and so many lines, read into a ledger of as many rides; then once more as it is; then with one
     * line behind it. Each against the start of the program alone: the import of an empty folder into the same ledger.
     */
    private List<Ratio> logbook(int lines) throws IOException, InterruptedException {
        Path rides = work.resolve("rides.ledger");
        LedgerMaker.makeRides(rides, lines, LogbookMaker.BIKES, LogbookMaker.YEARS);
        Path empty = Files.createDirectory(work.resolve("empty"));
        String text = LogbookMaker.of(lines, lines);
        Path book = Files.writeString(work.resolve("logbook.txt"), text);
        for (Path program : programs) {
            Path ledger = Files.copy(rides, work.resolve("untimed.ledger"));
            String told = chainage(program, ledger, "--zone", "UTC", "import", book.toString())
                    .run()
                    .output();
            // Where lines break depends on how long the path is.
            if (!told.replaceAll("\\s+", " ").contains("lines " + lines + " new")) {
                throw new IOException("not all lines were read: " + told.substring(0, Math.min(500, told.length())));
            }
            Files.delete(ledger);
        }
        Ratio whole = ratio("reading a logbook of " + lines + " lines, 20 years, on " + lines + " rides"
                + " ÷ import of an empty folder into that ledger");
        Ratio again = ratio("reading it again, unchanged ÷ the same");
        Ratio more = ratio("reading it with one line more ÷ the same");
        for (int i = 0; i < repetitions; i++) {
            List<ColdRun> reading = new ArrayList<>();
            for (int p = 0; p < programs.size(); p++) {
                Path ledger = Files.copy(rides, work.resolve("logbook-" + i + "-" + p + ".ledger"));
                reading.add(chainage(programs.get(p), ledger, "--zone", "UTC", "import", book.toString()));
            }
            Path other = Files.copy(rides, work.resolve("logbook-" + i + ".ledger"));
            ColdRun start = chainage(programs.get(0), other, "--zone", "UTC", "import", empty.toString());
            start.run();
            alternate(whole, i, reading, start);
            Path read = work.resolve("logbook-" + i + "-0.ledger");
            ColdRun known = chainage(programs.get(0), read, "--zone", "UTC", "import", empty.toString());
            alternate(again, i, reading, known);
            Files.writeString(book, text + LogbookMaker.LAST);
            alternate(more, i, reading, known);
            Files.writeString(book, text);
        }
        return List.of(whole, again, more);
    }

    private Ratio due(String what, Path ledger, String chain) throws IOException, InterruptedException {
        List<ColdRun> runs = new ArrayList<>();
        for (Path program : programs) {
            ColdRun due = chainage(program, ledger, "--at", LedgerMaker.AT.toString(), "due");
            if (!due.run().output().contains(chain)) {
                throw new IOException("due does not speak of the chain " + chain);
            }
            runs.add(due);
        }
        ColdRun line = ColdRun.baseline(OneLine.class, testClasses, work);
        Ratio ratio = ratio(what + " ÷ print one line");
        for (int i = 0; i < repetitions; i++) {
            alternate(ratio, i, runs, line);
        }
        return ratio;
    }

    /** A ride tagged muddy, with what that moves; each tag is taken back before the next. */
    private Ratio tag(String what, Path ledger) throws IOException, InterruptedException {
        List<Path> ledgers = new ArrayList<>();
        for (int p = 0; p < programs.size(); p++) {
            ledgers.add(
                    Files.copy(ledger, work.resolve("tagged-" + p + ".ledger"), StandardCopyOption.REPLACE_EXISTING));
        }
        ColdRun line = ColdRun.baseline(OneLine.class, testClasses, work);
        Ratio ratio = ratio(what + " ÷ print one line");
        for (int i = 0; i < repetitions; i++) {
            List<ColdRun> runs = new ArrayList<>();
            for (Path program : programs) {
                runs.add(chainage(
                        program, ledgers.get(runs.size()), "--at", LedgerMaker.AT.toString(), "tag", "last", "muddy"));
            }
            alternate(ratio, i, runs, line);
            for (Path program : programs) {
                chainage(program, ledgers.get(programs.indexOf(program)), "--at", LedgerMaker.AT.toString(), "undo")
                        .run();
            }
        }
        for (Path tagged : ledgers) {
            Files.delete(tagged);
        }
        return ratio;
    }

    private Ratio ratio(String what) {
        return new Ratio(what, programs.size());
    }

    /** Takes turns at going first, so that none always finds the machine as the same other left it. */
    private static void alternate(Ratio ratio, int round, List<ColdRun> programs, ColdRun baseline)
            throws IOException, InterruptedException {
        List<ColdRun> runs = new ArrayList<>(programs);
        runs.add(baseline);
        Double[] seconds = new Double[runs.size()];
        for (int i = 0; i < seconds.length; i++) {
            int turn = (i + round) % seconds.length;
            seconds[turn] = runs.get(turn).run().seconds();
        }
        ratio.add(List.of(seconds).subList(0, programs.size()), seconds[programs.size()]);
    }

    /** An untimed import that must take every file; so the timed ones do what they claim. */
    private void importAll(Path program, Path ledger, Path folder, int files) throws IOException, InterruptedException {
        ColdRun.Result result =
                chainage(program, ledger, "import", folder.toString(), "--json").run();
        if (!result.output().replace(" ", "").contains("\"imported\":" + files + ",")) {
            String start =
                    result.output().substring(0, Math.min(500, result.output().length()));
            throw new IOException("import did not take all " + files + " files: " + start);
        }
    }

    /** Two chains that take turns on the default bike, each treated before its turn. */
    private void setUp(Path program, Path ledger) throws IOException, InterruptedException {
        List<List<String>> commands = new ArrayList<>(List.of(
                List.of("bike", "add", "Plough", "--rings", "50,34", "--cogs", "11,13,15,17,19,21,24,28", "--default"),
                List.of("chain", "add", "Chalk", "--speeds", "11"),
                List.of("chain", "add", "Cheese", "--speeds", "11"),
                List.of("product", "add", "Kettle Block", "--method", "hot-wax")));
        List<String> days = List.of("2024-01-01", "2024-03-01", "2024-06-01", "2024-09-01", "2024-12-01");
        for (int i = 0; i < days.size(); i++) {
            String chain = i % 2 == 0 ? "Chalk" : "Cheese";
            commands.add(List.of("treat", chain, "Kettle Block", "--on", days.get(i), "--cleaning", "deep"));
            List<String> install = new ArrayList<>(List.of("install", chain, "Plough", "--on", days.get(i)));
            if (i > 0) {
                install.add("--swap");
            }
            commands.add(install);
        }
        for (List<String> command : commands) {
            chainage(program, ledger, command.toArray(String[]::new)).run();
        }
    }

    private ColdRun chainage(Path program, Path ledger, String... args) {
        List<String> command = new ArrayList<>(List.of(program.toString(), "--ledger", ledger.toString()));
        command.addAll(List.of(args));
        return new ColdRun(command, work);
    }

    private static void say(String format, Object... values) {
        System.err.printf(Locale.ROOT, format + "%n", values);
    }

    private static void delete(Path folder) throws IOException {
        try (Stream<Path> all = Files.walk(folder)) {
            for (Path path : all.sorted(Comparator.reverseOrder()).toList()) {
                Files.delete(path);
            }
        }
    }
}
