package chainage.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Two rides made to begin alike: the numbers in them were searched for until the first eleven digits of both ids agreed,
 * which took four million tries.
 */
class RidesAlikeTest {
    private static final String SHARED = "a460fcaebb";
    private static final String MARCH = "a460fcaebbb2";
    private static final String APRIL = "a460fcaebbb0";

    @TempDir
    Path folder = Path.of("");

    @BeforeEach
    void write() throws IOException {
        Files.writeString(folder.resolve("march.gpx"), gpx(1_941_826, 3));
        Files.writeString(folder.resolve("april.gpx"), gpx(893_310, 4));
    }

    private static String gpx(int number, int month) {
        String day = "2026-0" + month + "-01T";
        return "<gpx><!-- " + number + " --><trk><type>cycling</type><trkseg>"
                + "<trkpt lat=\"10\" lon=\"20\"><time>" + day + "08:00:00Z</time></trkpt>"
                + "<trkpt lat=\"10\" lon=\"20.04\"><time>" + day + "08:10:00Z</time></trkpt>"
                + "</trkseg></trk></gpx>";
    }

    private Run run(String ledger, String... command) {
        List<String> args =
                new ArrayList<>(List.of("--ledger", folder.resolve(ledger).toString()));
        args.addAll(List.of(command));
        return Run.of(args.toArray(String[]::new));
    }

    private String ok(String ledger, String... command) {
        Run r = run(ledger, command);
        assertEquals(0, r.code(), r.err());
        return r.out();
    }

    private String file(String name) {
        return folder.resolve(name).toString();
    }

    /** Each ride's id and moisture, by start. */
    private List<String> moistures(String ledger) {
        return Pattern.compile("\"id\" : \"(\\w+)\".*?\"moisture\" : \"(\\w+)\"", Pattern.DOTALL)
                .matcher(ok(ledger, "rides", "--json"))
                .results()
                .map((MatchResult m) -> m.group(1) + " " + m.group(2))
                .toList();
    }

    @Test
    void aFactStatedBeforeTheOtherCameStaysWithItsRide() {
        ok("l", "import", file("march.gpx"));
        assertEquals(List.of(SHARED + " dry"), moistures("l"));
        ok("l", "tag", SHARED, "wet");
        String rehearsed = ok("l", "import", "--dry-run", "--json", file("april.gpx"));
        assertTrue(rehearsed.contains(APRIL), rehearsed);
        ok("l", "import", file("april.gpx"));
        assertEquals(List.of(MARCH + " wet", APRIL + " dry"), moistures("l"));
        assertTrue(ok("l", "log").contains("ride " + MARCH + " tagged"));
    }

    @Test
    void aFactOfEitherHoldsForItAloneInWhateverOrderTheyCame() {
        for (String[] files : new String[][] {{"march.gpx", "april.gpx"}, {"april.gpx", "march.gpx"}}) {
            String ledger = files[0] + ".sqlite";
            ok(ledger, "import", file(files[0]));
            ok(ledger, "import", file(files[1]));
            ok(ledger, "tag", APRIL, "wet");
            assertEquals(List.of(MARCH + " dry", APRIL + " wet"), moistures(ledger));
            ok(ledger, "tag", MARCH + "6fd0", "damp");
            assertEquals(List.of(MARCH + " damp", APRIL + " wet"), moistures(ledger));
            ok(ledger, "tag", APRIL + "1", "--withdraw");
            assertEquals(List.of(MARCH + " damp", APRIL + " dry"), moistures(ledger));
        }
    }

    @Test
    void whatBothBeginWithIsRefusedAndBothAreNamed() {
        ok("l", "import", file("march.gpx"), file("april.gpx"));
        for (String typed : List.of("a460", SHARED, SHARED + "b")) {
            Run r = run("l", "tag", typed, "wet");
            assertEquals(64, r.code());
            assertTrue(r.err().contains(MARCH) && r.err().contains(APRIL), r.err());
        }
        assertEquals(64, run("l", "tag", MARCH + "0", "wet").code());
    }

    @Test
    void anExportKeepsWhichOfThemAFactMeans() {
        // The one whose content sorts behind the other's comes first, and has a fact from before the other came.
        for (String[] files : new String[][] {{"march.gpx", "april.gpx"}, {"april.gpx", "march.gpx"}}) {
            String ledger = files[0] + ".sqlite";
            ok(ledger, "import", file(files[0]));
            ok(ledger, "tag", SHARED, "wet");
            ok(ledger, "import", file(files[1]));
            String copy = files[0] + ".jsonl";
            ok(ledger, "export", "-o", file(copy));
            ok(ledger + ".copy", "import", file(copy));
            assertEquals(moistures(ledger), moistures(ledger + ".copy"));
            ok(ledger, "import", file(copy));
            // Here the other one came first, so that the fact would be its own.
            String other = ledger + ".other";
            ok(other, "import", file(files[1]));
            Run r = run(other, "import", file(copy));
            assertTrue(r.code() != 0 && r.err().contains("ledger of its own"), r.err());
            assertEquals(List.of(SHARED + " dry"), moistures(other));
        }
    }
}
