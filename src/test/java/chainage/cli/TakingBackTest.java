package chainage.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.typed.ExitCode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.LongStream;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Random sequences of commands through the program, as a rider types them; a failure names its seed. */
class TakingBackTest {
    private static final Pattern UNDO = Pattern.compile("to take it back: chainage undo ([0-9 ]+)");
    private static final List<String> BIKES = List.of("Dunlin", "Natterjack", "Sandpiper");
    private static final List<String> CHAINS = List.of("Amber", "Ochre", "Moss", "Flint");
    private static final List<String> PRODUCTS = List.of("Kettle Block", "Lantern Drip", "hot-wax", "wet-lube");

    @TempDir
    Path dir = Path.of("");

    static LongStream seeds() {
        return LongStream.range(0, Integer.getInteger("trust.sequences", 6));
    }

    private final List<String> taken = new ArrayList<>();

    /** Runs a command; keeps the numbers of what it wrote. A refusal is as good an end as any, save our own mistake. */
    private void command(String title, String... words) {
        Run r = run(words);
        assertTrue(
                r.code() == 0 || r.code() == ExitCode.USAGE.code(),
                () -> title + ": " + String.join(" ", words) + " → " + r);
        if (r.code() != 0) {
            return;
        }
        Matcher m = UNDO.matcher(r.out());
        assertTrue(m.find(), () -> title + ": " + String.join(" ", words) + " → " + r);
        taken.add(m.group(1));
    }

    private Run run(String... words) {
        List<String> args =
                new ArrayList<>(List.of("--ledger", dir.resolve("l.sqlite").toString()));
        args.addAll(List.of(words));
        return Run.of(args.toArray(String[]::new));
    }

    private String inForce() {
        return run("export", "--in-force").out();
    }

    private static String[] random(Random random, int entries) {
        String bike = BIKES.get(random.nextInt(BIKES.size()));
        String chain = CHAINS.get(random.nextInt(CHAINS.size()));
        String other = CHAINS.get(random.nextInt(CHAINS.size()));
        String product = PRODUCTS.get(random.nextInt(PRODUCTS.size()));
        String day = "2026-0" + (1 + random.nextInt(9)) + "-" + (10 + random.nextInt(18));
        String no = Integer.toString(1 + random.nextInt(Math.max(1, entries)));
        return switch (random.nextInt(20)) {
            case 0 -> new String[] {"bike", "add", bike};
            case 1, 2 -> new String[] {"chain", "add", chain};
            case 3 -> new String[] {"product", "add", product, "--method", "drip-wax"};
            case 4, 5 -> new String[] {"install", chain, bike, "--on", day, "--swap"};
            case 6 -> new String[] {"remove", chain, "--on", day};
            case 7, 8 -> new String[] {"treat", chain, product, "--on", day};
            case 9 -> new String[] {"measure", chain, "0." + (10 + random.nextInt(60)) + "%", "--on", day};
            case 10 -> new String[] {"remark", chain, "noisy", "--on", day};
            case 11 -> new String[] {"bike", "rename", bike, BIKES.get(random.nextInt(BIKES.size()))};
            case 12 -> new String[] {"chain", "rename", chain, other};
            case 13 -> new String[] {"product", "rename", product, "Marsh Oil"};
            case 14 -> new String[] {"chain", "merge", chain, other};
            case 15 -> new String[] {"redate", no, "--on", day};
            case 16 -> new String[] {"undo"};
            case 17 -> new String[] {"undo", no};
            case 18 -> new String[] {"redo"};
            default -> new String[] {"assign", "--path", "x" + random.nextInt(3), "--bike", bike};
        };
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void takingBackEverythingFromTheLastOnRestoresTheFactsInForce(long seed) throws IOException {
        Random random = new Random(seed);
        String title = "seed " + seed;
        for (String bike : BIKES) {
            command(title, "bike", "add", bike);
        }
        command(title, "chain", "add", "Amber");
        command(title, "install", "Amber", "Dunlin", "--on", "2026-01-02");
        String before = inForce();
        taken.clear();
        for (int i = 0; i < 60; i++) {
            command(title, random(random, entries()));
        }
        assertTrue(taken.size() >= 4, () -> title + ": only " + taken.size() + " commands were accepted");
        assertNotEquals(before, inForce(), title);
        String after = inForce();
        List<String> steps = List.copyOf(taken);
        taken.clear();
        for (int i = steps.size() - 1; i >= 0; i--) {
            Run r = undo(steps.get(i));
            assertEquals(0, r.code(), title + ": undo " + steps.get(i) + " → " + r);
            Matcher m = UNDO.matcher(r.out());
            assertTrue(m.find(), r.out());
            taken.add(m.group(1));
        }
        assertEquals(before, inForce(), title);
        // And taking back the taking-back, from the last one on, brings all of it again.
        List<String> undos = List.copyOf(taken);
        for (int i = undos.size() - 1; i >= 0; i--) {
            assertEquals(0, undo(undos.get(i)).code(), title + ": undo " + undos.get(i));
        }
        assertEquals(after, inForce(), title);
        Run check = run("check");
        assertTrue(check.code() == 0 || check.out().contains("measure again"), () -> title + ": " + check);
        // Nothing was deleted on the way, and all of it survives an export.
        Path export = dir.resolve("l.jsonl");
        assertEquals(0, run("export", "-o", export.toString()).code());
        String copy = dir.resolve("copy.sqlite").toString();
        assertEquals(0, Run.of("--ledger", copy, "import", export.toString()).code());
        assertEquals(
                Files.readString(export), Run.of("--ledger", copy, "export").out());
    }

    private Run undo(String numbers) {
        List<String> words = new ArrayList<>(List.of("undo"));
        words.addAll(List.of(numbers.trim().split(" ", -1)));
        return run(words.toArray(String[]::new));
    }

    private int entries() {
        return (int) run("export")
                .out()
                .lines()
                .filter(l -> l.startsWith("{\"entry\""))
                .count();
    }
}
