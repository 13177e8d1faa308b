package chainage.trust;

import chainage.cli.RandomLine;
import chainage.cli.Run;
import chainage.cli.SmallSeason;
import chainage.store.BentLedger;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Bent exports, bent ledgers, bent command lines: what is refused is refused in a line, and with what is taken in every
 * command works. Nothing ends as an internal error or with a ledger that can no longer be read. All of it is run in one
 * process, through the entry of the program behind its start, with what it prints held in memory.
 */
final class PoisonTrial implements Trial {
    /** A number or a text of a line, names of fields apart. */
    private static final Pattern VALUE =
            Pattern.compile("(?<=[:\\[,])(-?\\d[\\d.eE+-]*|\"(?:[^\"\\\\]|\\\\.)*\"(?!:)|true|false|null)");

    private static final List<String> BENT = List.of(
            "0",
            "-1",
            "1e308",
            "-1e308",
            "4.9e-324",
            "9223372036854775807",
            "-9223372036854775808",
            "1e9",
            "0.5",
            "2147483648",
            "NaN",
            "null",
            "true",
            "[]",
            "{}",
            "\"\"",
            "\" \"",
            "\"\\u0000\"",
            "\"\\n\"",
            "\"$(x)\"",
            "\"2026-13-01T00:00:00.000Z\"",
            "\"-999999999-01-01T00:00:00.000Z\"",
            "\"+999999999-12-31T23:59:59.999Z\"",
            "\"1969-12-31T23:59:59.999Z\"",
            "\"2101-01-01T00:00:00.000Z\"",
            "\"2026-05-01T00:00:00.000Z\"",
            "\"none\"",
            "\"factory\"",
            "\"Amber\"",
            "\"Dunlin\"",
            "\"AMBER\"",
            "\"" + "x".repeat(2_000) + "\"");

    /** For texts that are no JSON. */
    private static final List<String> TEXTS = BENT.stream()
            .filter(b -> b.startsWith("\""))
            .map(b -> b.substring(1, b.length() - 1).replace("\\n", "\n").replace("\\u0000", "\u0000"))
            .toList();

    /** So many faults are reported; there is no use in more. */
    private static final int ENOUGH = 20;

    /** How a line of a stack trace begins. */
    private static final String TRACE = "\n\tat ";

    /** So many lines a ledger lives through; our guess, that most are refused. */
    private static final int LIVES = 60;

    private static final List<List<String>> ROTTEN =
            List.of(List.of("due"), List.of("rides"), List.of("log"), List.of("refused"));

    private static final List<List<String>> COMMANDS = List.of(
            List.of("due", "--why"),
            List.of("due", "--json"),
            List.of("rides", "--why", "--all"),
            List.of("rides", "--csv"),
            List.of("conditions", "last"),
            List.of("weather"),
            List.of("words"),
            List.of("bike"),
            List.of("chain"),
            List.of("product"),
            List.of("assign"),
            List.of("compare", "--why"),
            List.of("factors"),
            List.of("loss"),
            List.of("cost"),
            List.of("plan", "--why"),
            List.of("page", "-o", "OUT/page.html"),
            List.of("calendar", "-o", "OUT/dates.ics"),
            List.of("export", "-o", "OUT/export.jsonl"),
            List.of("refused"),
            List.of("check"),
            List.of("log"),
            List.of("treat", "Amber", "hot-wax", "--dry-run"),
            List.of("tag", "last", "muddy"),
            List.of("undo"));

    @Override
    public List<Tried> on(Site site) throws Exception {
        Path memory = Path.of("/dev/shm");
        // In memory where there is such a place: it is not the disk that is tried.
        Path folder = Files.isWritable(memory)
                ? Files.createTempDirectory(memory, "chainage-poison-")
                : site.folder("poison");
        try {
            Path sound = folder.resolve("sound.sqlite");
            SmallSeason.state(folder, sound);
            List<Tried> table = new ArrayList<>();
            table.add(exports(site, folder));
            table.add(ledgers(site, folder, sound));
            table.add(rot(site, folder, sound));
            table.add(lines(site, folder, sound));
            return table;
        } finally {
            Site.delete(folder);
        }
    }

    private static Tried exports(Site site, Path folder) throws IOException {
        List<String> sound = Files.readAllLines(folder.resolve("sound.jsonl"));
        Random random = site.random("poison");
        List<String> lost = new ArrayList<>();
        int rounds = site.times(150, 10_000);
        int taken = 0;
        Path file = folder.resolve("bent.jsonl");
        Path ledger = folder.resolve("ledger.sqlite");
        for (int round = 0; round < rounds && lost.size() < ENOUGH; round++) {
            List<String> bent = bent(sound, random);
            Files.write(file, bent, StandardCharsets.UTF_8);
            delete(ledger);
            String wrong = wrong(run(ledger, "import", file.toString()));
            boolean in = Files.exists(ledger) && wrong.isEmpty();
            taken += in ? 1 : 0;
            wrong = in ? answered(ledger, folder) : wrong;
            if (!wrong.isEmpty()) {
                lost.add("round " + round + ": " + wrong + "; bent: " + changed(sound, bent));
            }
        }
        return new Tried(
                "exports with bent values, then " + COMMANDS.size() + " commands",
                rounds,
                lost,
                taken + " were taken in");
    }

    /** Values that no one can have meant, in rows with the right sums: as another program would write them. */
    private static Tried ledgers(Site site, Path folder, Path sound) throws IOException, SQLException {
        Random random = site.random("ledgers");
        // A kind that is not known is of a later program, and to answer without it would be to answer wrong.
        List<BentLedger.Column> columns = BentLedger.columns(sound).stream()
                .filter(c -> !c.toString().equals("entry.kind"))
                .toList();
        List<String> lost = new ArrayList<>();
        int rounds = site.times(100, 5_000);
        int bent = 0;
        Path ledger = folder.resolve("ledger.sqlite");
        for (int round = 0; bent < rounds && lost.size() < ENOUGH; round++) {
            copy(sound, ledger);
            // Facts are what most is made of.
            List<BentLedger.Column> some = columns.stream()
                    .filter(c -> c.table().equals("entry") == random.nextBoolean())
                    .toList();
            List<BentLedger.Column> of = some.isEmpty() ? columns : some;
            String what = BentLedger.mean(
                    ledger, of.get(random.nextInt(of.size())), random, json -> bent(json, random), TEXTS);
            if (what == null) {
                continue;
            }
            bent++;
            String wrong = answered(ledger, folder);
            if (!wrong.isEmpty()) {
                lost.add("round " + round + ": " + wrong + "; bent: " + what);
            }
        }
        return new Tried(
                "ledgers with a bent value and the right sum, then " + COMMANDS.size() + " commands", bent, lost, "");
    }

    /** A bit that turns, in each column and everywhere in its value: told, or of no consequence; and answers go on. */
    private static Tried rot(Site site, Path folder, Path sound) throws IOException, SQLException {
        Random random = site.random("rot");
        List<String> lost = new ArrayList<>();
        int places = site.times(4, 64);
        int turned = 0;
        int told = 0;
        Path ledger = folder.resolve("ledger.sqlite");
        String facts = Ledgers.facts(sound);
        for (BentLedger.Column column : BentLedger.columns(sound)) {
            for (int place = 0; place < places && lost.size() < ENOUGH; place++) {
                copy(sound, ledger);
                String what = BentLedger.rot(ledger, column, random, (place + random.nextDouble()) / places);
                if (what == null) {
                    continue;
                }
                turned++;
                Run check = run(ledger, "check");
                String wrong = wrong(check);
                if (wrong.isEmpty()
                        && check.code() == 0
                        && !Ledgers.facts(ledger).equals(facts)) {
                    wrong = "another fact, and check says " + check.out().strip();
                }
                told += check.code() == 0 ? 0 : 1;
                for (List<String> command : ROTTEN) {
                    wrong = wrong.isEmpty() ? wrong(run(ledger, command.toArray(String[]::new))) : wrong;
                }
                if (!wrong.isEmpty()) {
                    lost.add(wrong + "; turned: " + what);
                }
            }
        }
        return new Tried(
                "a bit turned in each column, everywhere in its value",
                turned,
                lost,
                told + " were named, the others change no fact");
    }

    /** Each ledger lives through some lines, so that what one states another meets. */
    private static Tried lines(Site site, Path folder, Path sound) throws IOException {
        Random random = site.random("lines");
        RandomLine lines = new RandomLine(random, folder);
        List<String> lost = new ArrayList<>();
        int rounds = site.times(1_000, 50_000);
        Map<Integer, Integer> codes = new TreeMap<>();
        Path ledger = folder.resolve("ledger.sqlite");
        for (int round = 0; round < rounds && lost.size() < ENOUGH; round++) {
            if (round % LIVES == 0) {
                copy(sound, ledger);
            }
            List<String> line = lines.next();
            Run run = run(ledger, line.toArray(String[]::new));
            codes.merge(run.code(), 1, Integer::sum);
            // A file that is no ledger is refused as such where one is named; the trial's own must stay one.
            boolean lives = run.code() != 78 || run(ledger, "log").code() == 0;
            String wrong = lives && run.code() != 70 && !run.err().contains(TRACE) ? "" : said(run);
            if (!wrong.isEmpty()) {
                lost.add("line " + round + ": " + line + ": " + wrong);
                copy(sound, ledger);
            }
        }
        return new Tried("command lines of the program's own words, at random", rounds, lost, "exits " + codes);
    }

    /** What goes wrong in the first of all commands in which something does; empty for none. */
    private static String answered(Path ledger, Path folder) throws IOException {
        String wrong = "";
        for (List<String> command : COMMANDS) {
            String[] words = command.stream()
                    .map(w -> w.replace("OUT", folder.toString()))
                    .toArray(String[]::new);
            String failed = wrong(run(ledger, words));
            wrong = wrong.isEmpty() && !failed.isEmpty() ? String.join(" ", command) + ": " + failed : wrong;
            Files.deleteIfExists(folder.resolve("page.html"));
            Files.deleteIfExists(folder.resolve("dates.ics"));
            Files.deleteIfExists(folder.resolve("export.jsonl"));
        }
        return wrong;
    }

    private static void copy(Path sound, Path ledger) throws IOException {
        delete(ledger);
        Files.copy(sound, ledger);
    }

    private static void delete(Path ledger) throws IOException {
        for (String end : List.of("", "-wal", "-shm")) {
            Files.deleteIfExists(Path.of(ledger + end));
        }
    }

    /** What must not be: an internal error, or a ledger that cannot be read. */
    private static String wrong(Run run) {
        return run.code() == 70 || run.code() == 78 || run.err().contains(TRACE) ? said(run) : "";
    }

    private static String said(Run run) {
        return run.code() + " "
                + (run.out() + run.err())
                        .lines()
                        .filter(l -> !l.contains("java.base/"))
                        .limit(4)
                        .toList();
    }

    /** The bent lines about their first difference. */
    private static String changed(List<String> sound, List<String> bent) {
        StringBuilder changed = new StringBuilder();
        for (int i = 0; i < bent.size(); i++) {
            String line = bent.get(i);
            if (!sound.contains(line)) {
                String was = i < sound.size() ? sound.get(i) : "";
                int at = 0;
                while (at < line.length() && at < was.length() && line.charAt(at) == was.charAt(at)) {
                    at++;
                }
                changed.append(" | ").append(line, Math.max(0, at - 80), Math.min(line.length(), at + 40));
            }
        }
        return changed.toString();
    }

    private static Run run(Path ledger, String... words) {
        List<String> all = new ArrayList<>(List.of("--ledger", ledger.toString()));
        all.addAll(0, List.of(words));
        return Run.of(all.toArray(String[]::new));
    }

    /** One to three values bent, or a line repeated, left out or moved, with the counts at the end put right. */
    private static List<String> bent(List<String> sound, Random random) {
        List<String> lines = new ArrayList<>(sound);
        for (int i = random.nextInt(5) == 0 ? 2 : 0; i >= 0; i--) {
            int at = 1 + random.nextInt(lines.size() - 2);
            int how = random.nextInt(12);
            if (how == 0) {
                lines.add(at, lines.get(at));
            } else if (how == 1 && lines.size() > 4) {
                lines.remove(at);
            } else if (how == 2) {
                lines.add(1 + random.nextInt(lines.size() - 2), lines.remove(at));
            } else {
                lines.set(at, bent(lines.get(at), random));
            }
        }
        lines.set(lines.size() - 1, end(lines));
        return lines;
    }

    private static String bent(String line, Random random) {
        Matcher all = VALUE.matcher(line);
        List<int[]> places = new ArrayList<>();
        while (all.find()) {
            places.add(new int[] {all.start(), all.end()});
        }
        if (places.isEmpty()) {
            return line;
        }
        int[] place = places.get(random.nextInt(places.size()));
        String was = line.substring(place[0], place[1]);
        boolean text = was.startsWith("\"");
        List<String> alike = BENT.stream()
                .filter(b -> random.nextInt(4) == 0 || b.startsWith("\"") == text)
                .toList();
        String is = alike.get(random.nextInt(alike.size()));
        return line.substring(0, place[0]) + is + line.substring(place[1]);
    }

    /** The last line, with as many of each kind as there are. */
    private static String end(List<String> lines) {
        Map<String, Integer> counts = new HashMap<>();
        for (String line : lines) {
            Matcher kind = Pattern.compile("^\\{\"(\\w+)\"").matcher(line);
            if (kind.find()) {
                counts.merge(kind.group(1), 1, Integer::sum);
            }
        }
        Matcher count = Pattern.compile("\"(\\w+)\":\\d+").matcher(lines.get(lines.size() - 1));
        return count.replaceAll(m -> {
            String kind = m.group(1).equals("entries") ? "entry" : m.group(1).replaceAll("s$", "");
            return "\"" + m.group(1) + "\":" + counts.getOrDefault(kind, 0);
        });
    }
}
