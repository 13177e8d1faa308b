package chainage.cli;

import chainage.bench.RideMaker;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** A season of few rides with a fact of nearly every kind that the terminal takes, stated as a rider states it. */
public final class SmallSeason {
    /** The names that are in it. */
    static final List<String> NAMES =
            List.of("Dunlin", "Natterjack", "Amber", "Flint", "Kettle", "Thistle", "Wren", "hot-wax", "wet-lube");

    private SmallSeason() {}

    /**
     * Makes it.
     *
     * @param folder for files that are read; exists
     * @param ledger where it is kept; there is none yet
     */
    public static void state(Path folder, Path ledger) throws IOException {
        Path rides = folder.resolve("rides");
        RideMaker.fill(rides, RideMaker::ride, "fit", 8, 86_400 * 3, 900);
        Files.writeString(folder.resolve("2024-01.txt"), """
                METAR XDUN 010800Z 24010KT 9999 -RA OVC012 08/07 Q1005=
                METAR XDUN 010900Z 24010KT 9999 OVC012 08/07 Q1005=
                """);
        Files.writeString(folder.resolve("treatments.csv"), """
                Date,Chain,What,Product
                2024-01-12,Amber,waxed,hot-wax
                2024-01-14,Amber,measured 0.05 %,
                """);
        Files.writeString(folder.resolve("season.txt"), """
                chainage logbook
                2024-01-17 remark Flint note "a friend's gauge"
                2024-01-18 tag last damp
                """);
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
                "weather add " + folder.resolve("2024-01.txt") + " --station 0.1,-30",
                "tag last wet 40% gritty",
                "assign --path commute --bike Natterjack",
                "assign --cyclist 8..55",
                "assign last --not-a-duplicate",
                "factors set treatment.wet.hot-wax 5",
                "words set \"peat track\" gritty",
                "settings set units imperial",
                "settings reset units",
                "meter set bike_power:4001 --before-chain",
                "bike set Dunlin --wheel 2.105m",
                "chain set Moss --limit 0.6%",
                "chain rename Moss Flint",
                "redate 12 --on 2024-01-19",
                "import " + folder.resolve("season.txt"),
                "evidence write " + folder.resolve("mine.jsonl") + " --least 1",
                "evidence add " + folder.resolve("mine.jsonl") + " --as Wren",
                "export -o " + folder.resolve("sound.jsonl"))) {
            List<String> words = new ArrayList<>(List.of("--ledger", ledger.toString()));
            words.addAll(split(line));
            Run run = Run.of(words.toArray(String[]::new));
            if (run.code() != 0) {
                throw new IOException(line + ": " + run);
            }
        }
    }

    /** Words as a shell makes them of a line; only double quotes mean something. */
    static List<String> split(String line) {
        Matcher words = Pattern.compile("\"([^\"]*)\"|\\S+").matcher(line);
        return words.results()
                .map(m -> m.group(1) == null ? m.group() : m.group(1))
                .toList();
    }
}
