package chainage.trust;

import chainage.bench.RideMaker;
import chainage.cli.Run;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Exports with bent values: what is refused is refused in one line, and with what is taken in every command works.
 * Nothing ends as an internal error or with a ledger that can no longer be read.
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
        Path folder = site.folder("poison");
        List<String> sound = export(folder);
        Random random = site.random("poison");
        List<String> lost = new ArrayList<>();
        int rounds = site.times(150, 10_000);
        int taken = 0;
        for (int round = 0; round < rounds && lost.size() < 20; round++) {
            List<String> bent = bent(sound, random);
            Path file = folder.resolve("bent.jsonl");
            Files.write(file, bent, StandardCharsets.UTF_8);
            Path ledger = folder.resolve("ledger.sqlite");
            for (String end : List.of("", "-wal", "-shm")) {
                Files.deleteIfExists(Path.of(ledger + end));
            }
            String wrong = wrong(run(ledger, "import", file.toString()));
            boolean in = Files.exists(ledger) && wrong.isEmpty();
            taken += in ? 1 : 0;
            for (List<String> command : in ? COMMANDS : List.<List<String>>of()) {
                String[] words = command.stream()
                        .map(w -> w.replace("OUT", folder.toString()))
                        .toArray(String[]::new);
                String failed = wrong(run(ledger, words));
                wrong = wrong.isEmpty() && !failed.isEmpty() ? String.join(" ", command) + ": " + failed : wrong;
                Files.deleteIfExists(folder.resolve("page.html"));
                Files.deleteIfExists(folder.resolve("dates.ics"));
                Files.deleteIfExists(folder.resolve("export.jsonl"));
            }
            if (!wrong.isEmpty()) {
                lost.add("round " + round + ": " + wrong + "; bent: " + changed(sound, bent));
            }
        }
        return List.of(new Tried(
                "exports with bent values, then " + COMMANDS.size() + " commands",
                rounds,
                lost,
                taken + " were taken in"));
    }

    /** What must not be: an internal error, or a ledger that cannot be read. */
    private static String wrong(Run run) {
        return run.code() == 70 || run.code() == 78 || run.err().contains("Exception")
                ? run.code() + " "
                        + run.err()
                                .lines()
                                .filter(l -> !l.contains("java.base/"))
                                .limit(4)
                                .toList()
                : "";
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

    /** A season of few rides with a fact of every kind that the terminal takes. */
    private static List<String> export(Path folder) throws IOException {
        Path ledger = folder.resolve("sound.sqlite");
        Path rides = folder.resolve("rides");
        RideMaker.fill(rides, RideMaker::ride, "fit", 8, 86_400 * 3, 900);
        String metar = """
                METAR XDUN 010800Z 24010KT 9999 -RA OVC012 08/07 Q1005=
                METAR XDUN 010900Z 24010KT 9999 OVC012 08/07 Q1005=
                """;
        Path weather = Files.writeString(folder.resolve("2024-01.txt"), metar);
        for (String line : List.of(
                "bike add Dunlin --rings 34,50 --cogs 11,12,13,14,15,17,19,21,24,28,32",
                "bike add Natterjack --no-chain",
                "chain add Amber --speeds 11 --links 112 --price 40EUR",
                "chain add Moss --speeds 11 --used",
                "product add Kettle --method hot-wax --price 20EUR",
                "product add Thistle --method wet-lube",
                "install Amber Dunlin --on 2023-12-01",
                "treat Amber Kettle --on 2023-12-01 --minutes 30 --cleaning deep",
                "treat Amber Kettle --on 2024-01-10 --heard noisy",
                "install Moss Dunlin --on 2024-01-15 --swap",
                "treat Moss Thistle --on 2024-01-15",
                "remark Moss noisy --on 2024-01-20",
                "measure Amber 0.1% --on 2024-01-16",
                "measure Moss --gauge 0.5 stays-out --on 2024-01-21",
                "import " + rides,
                "weather add " + weather + " --station 0.1,-30",
                "tag last wet 40% gritty",
                "assign --path commute --bike Natterjack",
                "factors set treatment.wet.hot-wax 5",
                "words set \"peat track\" gritty",
                "chain rename Moss Flint")) {
            Run run = run(ledger, split(line));
            if (run.code() != 0) {
                throw new IOException(line + ": " + run.err());
            }
        }
        Path out = folder.resolve("sound.jsonl");
        Run run = run(ledger, "export", "-o", out.toString());
        if (run.code() != 0) {
            throw new IOException(run.err());
        }
        return Files.readAllLines(out);
    }

    private static String[] split(String line) {
        Matcher words = Pattern.compile("\"([^\"]*)\"|\\S+").matcher(line);
        return words.results()
                .map(m -> m.group(1) == null ? m.group() : m.group(1))
                .toArray(String[]::new);
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
