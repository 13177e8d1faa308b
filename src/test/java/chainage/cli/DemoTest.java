package chainage.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.demo.Truth;
import chainage.typed.ExitCode;
import com.fasterxml.jackson.jr.ob.JSON;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;

/** The demo season end to end: import, answer, tag, and the contract for scripts field by field. */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class DemoTest {
    @TempDir
    static Path shared = Path.of("");

    private Run demo = new Run(-1, "", "");

    @BeforeAll
    void importTheSeason() {
        demo = Run.of("demo", "--folder", shared.resolve("demo").toString());
    }

    private Run run(String... command) {
        List<String> args = new ArrayList<>(List.of(
                "--ledger",
                shared.resolve("demo/ledger.sqlite").toString(),
                "--at",
                "2026-08-31T20:00Z",
                "--zone",
                "UTC"));
        args.addAll(List.of(command));
        return Run.of(args.toArray(String[]::new));
    }

    private static Map<String, Object> json(Run run) {
        try {
            return JSON.std.mapFrom(run.out());
        } catch (IOException e) {
            throw new AssertionError(run.out(), e);
        }
    }

    @SuppressWarnings("unchecked")
    private static List<Map<String, Object>> list(Map<String, Object> json, String name) {
        return (List<Map<String, Object>>) Objects.requireNonNull(json.get(name), name);
    }

    private Map<String, Object> chain(String name) {
        return list(json(run("due", "--json")), "chains").stream()
                .filter(c -> name.equals(c.get("chain")))
                .findFirst()
                .orElseThrow();
    }

    @Test
    void theDemoAnswersAndSaysWhatToTry() {
        assertEquals(0, demo.code(), demo.err());
        assertTrue(demo.out().contains("Nearest its limit: Moss, on Natterjack."), demo.out());
        assertTrue(demo.out().contains("tag last muddy"), demo.out());
        assertEquals(1, demo.err().lines().count(), "one file is unreadable: " + demo.err());
    }

    /** Borrowed for a day, a bike's sensors are not tied to the other one; on their own bike they are offered. */
    @Test
    void anExceptionIsOfferedAsNoRule() {
        assertEquals(
                0, run("assign", "--sensor", "shifting:31000528", "--withdraw").code());
        String offer = "chainage assign --sensor shifting:31000528 --bike ";
        Run other = run("assign", "2026-05-02", "--bike", "Natterjack", "--dry-run");
        assertEquals(0, other.code(), other.err());
        assertFalse(other.out().contains(offer), other.out());
        Run own = run("assign", "2026-05-02", "--bike", "Dunlin", "--dry-run");
        assertTrue(own.out().contains(offer + "Dunlin"), own.out());
        assertEquals(0, run("undo").code());
    }

    @Test
    void theChainsOfTheRoadStandWhereTheSeasonLeftThem() {
        // Worked from the season's plan and the table of factors: past, nearly, begun, fresh.
        assertTrue(number(chain("Moss"), "treatment_used") > 1);
        assertTrue(number(chain("Amber"), "treatment_used") > 1, "past the cautious limit");
        assertTrue(number(chain("Amber"), "treatment_used_of_likely") > 0.7);
        assertTrue(number(chain("Amber"), "treatment_used_of_likely") < 1, "short of the likely one");
        assertTrue(number(chain("Ochre"), "treatment_used") > 0 && number(chain("Ochre"), "treatment_used") < 0.5);
        assertEquals(0.0, number(chain("Flint"), "treatment_used"));
        assertEquals(null, chain("Flint").get("bike"));
        assertEquals("Dunlin", chain("Ochre").get("bike"));
    }

    /** One chain read three times, one by gauge alone, two not at all: the more is known, the narrower the answer. */
    @Test
    void theReadingsOfTheSeasonSharpenTheAnswer() {
        assertEquals(3.0, number(chain("Amber"), "readings"));
        assertEquals(2.0, number(chain("Moss"), "readings"));
        assertEquals(0.0, number(chain("Ochre"), "readings"));
        assertEquals(0.0, number(chain("Flint"), "readings"));
        assertTrue(width("Amber") < 0.8 * width("Moss"), width("Amber") + " against " + width("Moss"));
        // Ochre runs on what Amber runs on, so Amber's ruler tells more of it than a gauge far from its edge of Moss.
        assertTrue(width("Ochre") < width("Moss"), width("Ochre") + " against " + width("Moss"));
        // Before any reading of any chain: 0.68 in the log either way, 80 % (wear.spread).
        assertTrue(width("Moss") < 0.95 * 2 * 1.2816 * 0.6782, "what Amber taught of all chains: " + width("Moss"));
    }

    /** Drip wax and hot wax are far enough apart by now; drip wax and oil are not. */
    @Test
    void theSeasonGivesAVerdictOnProductsAndAnotherThatIsNotYet() {
        List<Map<String, Object>> pairs = list(json(run("compare", "--json")), "comparisons");
        assertTrue(
                pairs.stream()
                        .anyMatch(p -> "life".equals(p.get("by"))
                                && "firm".equals(p.get("verdict"))
                                && "Lantern Drip".equals(p.get("better"))
                                && "Kettle Block".equals(p.get("worse"))),
                pairs.toString());
        Map<String, Object> open = pairs.stream()
                .filter(p -> "not-yet".equals(p.get("verdict")))
                .findFirst()
                .orElseThrow();
        assertEquals("treatments", open.get("more_of"));
        assertTrue(number(open, "chance") > 0.5 && number(open, "chance") < 0.9);
        assertTrue(number(open, "more") >= 1);
    }

    /** Width of the 80 % interval of how fast a chain wears, in the log. */
    @SuppressWarnings("unchecked")
    private double width(String chain) {
        Map<String, Object> pace =
                (Map<String, Object>) Objects.requireNonNull(chain(chain).get("pace"));
        return Math.log(number(pace, "high") / number(pace, "low"));
    }

    private static double number(Map<String, Object> json, String field) {
        return ((Number) Objects.requireNonNull(json.get(field), field)).doubleValue();
    }

    /** On the shelf with less left than a ride of its bike takes. */
    @Test
    void aSpareThatWouldNotLastARideIsToBeTreatedFirst() {
        Run due = run("due", "Teal");
        assertTrue(
                due.out()
                        .replaceAll("\\s+", " ")
                        .contains("88 % of its treatment's due distance: treat it before it goes back on."),
                due.out());
        assertTrue(due.out().contains("before use"), due.out());
        assertTrue(run("plan").out().contains("treat Teal first"));
    }

    @Test
    void aMuddyTagBringsTheTreatmentForwardAndUntagRestoresTheSameBytes() {
        Run before = run("due", "--json");
        Run tag = run("tag", "last", "muddy");
        assertEquals(0, tag.code(), tag.err());
        Run muddy = run("due", "--json");
        assertNotEquals(before.out(), muddy.out());
        assertTrue(tag.out().contains("Ochre: 157 km of dry road left → 245 km overdue"), tag.out());
        assertEquals(0, run("tag", "last", "--withdraw").code());
        assertEquals(before.out(), run("due", "--json").out());
    }

    /** What two meters measured of two products takes the model's place, and only between those two. */
    @Test
    void whatWasMeasuredFirmlyIsWhatAWattCosts() {
        Run cost = run("cost", "--baseline", "Fen Grease");
        assertEquals(0, cost.code(), cost.err());
        String text = cost.out().replaceAll("\\s+", " ");
        assertTrue(text.contains("saved as measured by your rides with two power meters"), cost.out());
        assertEquals(2, text.split("saved as measured", -1).length, cost.out());
        assertFalse(run("cost").out().contains("measured by your rides"));
    }

    @Test
    void importingTheSeasonTwiceIsImportingItOnce() {
        Run before = run("rides", "--all", "--json");
        Run again = run("import", shared.resolve("demo/rides").toString(), "--json");
        assertEquals(0, again.code(), "the unreadable file is remembered: " + again.err());
        assertEquals(0, json(again).get("imported"));
        assertEquals(json(again).get("files"), json(again).get("known"));
        assertEquals(before.out(), run("rides", "--all", "--json").out());
    }

    /** Ochre was treated on 27 August by the logbook; a line changed and changed back moves that fact there and back. */
    @Test
    void aLineOfTheLogbookChangedChangesItsFact() throws IOException {
        Path logbook = shared.resolve("demo/logbook.txt");
        String kept = Files.readString(logbook);
        Run before = run("due", "--json");
        assertEquals("2026-08-27T00:00:00Z", chain("Ochre").get("treated_at"));
        Files.writeString(logbook, kept.replace("2026-08-27 treat Ochre", "2026-08-26 treat Ochre"));
        assertEquals(0, run("import", logbook.toString()).code());
        assertEquals("2026-08-26T00:00:00Z", chain("Ochre").get("treated_at"));
        Files.writeString(logbook, kept);
        assertEquals(0, run("import", logbook.toString()).code());
        assertEquals(before.out(), run("due", "--json").out());
    }

    @Test
    void everyJobCountAndOrderGivesTheSameAnswer() throws IOException {
        Path rides = shared.resolve("demo/rides");
        List<String> folders;
        try (var all = Files.list(rides)) {
            folders = new ArrayList<>(all.map(Path::toString).sorted().toList());
        }
        List<String> answers = new ArrayList<>();
        for (int jobs : new int[] {1, 3, 8}) {
            String ledger = shared.resolve("jobs-" + jobs + ".sqlite").toString();
            java.util.Collections.rotate(folders, 1);
            for (String folder : folders) {
                Run.of("--ledger", ledger, "import", folder, "--jobs", Integer.toString(jobs));
            }
            answers.add(Run.of("--ledger", ledger, "rides", "--all", "--json").out());
        }
        assertEquals(answers.get(0), answers.get(1));
        assertEquals(answers.get(0), answers.get(2));
    }

    @Test
    void theContractOfImport() {
        Map<String, Object> json =
                json(run("import", shared.resolve("demo/rides").toString(), "--json", "--dry-run"));
        assertTrue(json.keySet()
                .containsAll(
                        List.of("files", "imported", "known", "twins", "not_rides", "refused", "metres", "outcomes")));
        for (Map<String, Object> o : list(json, "outcomes")) {
            assertTrue(o.keySet().containsAll(List.of("file", "outcome", "reason", "ride_ids")), o.toString());
            assertTrue(
                    List.of("imported", "known", "twin", "not-ride", "refused", "salvaged")
                            .contains(o.get("outcome")),
                    o.toString());
        }
    }

    @Test
    void theContractOfRides() {
        List<Map<String, Object>> rides = list(json(run("rides", "--json")), "rides");
        assertTrue(rides.size() > 50);
        for (Map<String, Object> r : rides) {
            assertTrue(
                    r.keySet()
                            .containsAll(List.of(
                                    "id",
                                    "file",
                                    "format",
                                    "session",
                                    "start",
                                    "elapsed_s",
                                    "moving_s",
                                    "metres",
                                    "metres_from",
                                    "sport",
                                    "sub_sport",
                                    "bike",
                                    "bike_from",
                                    "chain",
                                    "product",
                                    "treated_at",
                                    "moisture",
                                    "grit",
                                    "wet_share",
                                    "condition_from",
                                    "twin_of",
                                    "avg_watts",
                                    "treatment_metres",
                                    "wear_metres",
                                    "load")),
                    r.toString());
            assertTrue(List.of("fit", "gpx", "tcx").contains(r.get("format")), r.toString());
            assertTrue(String.valueOf(r.get("start")).endsWith("Z"), r.toString());
        }
    }

    @Test
    void theContractOfDue() {
        Map<String, Object> json = json(run("due", "--json"));
        assertTrue(json.keySet().containsAll(List.of("at", "chains", "unattributed_metres")));
        List<Map<String, Object>> chains = list(json, "chains");
        assertEquals(6, chains.size());
        double nearest = Double.POSITIVE_INFINITY;
        for (Map<String, Object> c : chains) {
            assertTrue(
                    c.keySet()
                            .containsAll(List.of(
                                    "chain",
                                    "bike",
                                    "product",
                                    "treated_at",
                                    "ridden_metres",
                                    "metres_since_treatment",
                                    "treatment_exposure_metres",
                                    "treatment_life_metres",
                                    "treatment_used",
                                    "treatment_left_metres",
                                    "treat_on",
                                    "elongation_pct",
                                    "limit_pct",
                                    "replacement_used",
                                    "replacement_left_metres",
                                    "replace_on",
                                    "nearest",
                                    "why")),
                    c.toString());
            double used = Math.max(number(c, "treatment_used"), number(c, "replacement_used"));
            assertTrue(used <= nearest, "nearest limit first");
            nearest = used;
        }
    }

    /** Loads are the rides' own where there is power, and 1 elsewhere. */
    @Test
    void loadsRestOnPowerWhereThereIsSome() {
        int known = 0;
        for (Map<String, Object> r : list(json(run("rides", "--json")), "rides")) {
            if (r.get("load") == null) {
                continue;
            }
            boolean powered = r.get("avg_watts") != null;
            assertTrue(powered ? number(r, "load") != 1 : number(r, "load") == 1, r.toString());
            assertTrue(number(r, "load") > 0.5 && number(r, "load") < 2, r.toString());
            known += powered ? 1 : 0;
        }
        assertTrue(known > 30, known + " rides with power");
    }

    @Test
    void theLossOfEveryChainWithItsBand() {
        List<Map<String, Object>> chains =
                list(json(run("loss", "--watts", "250", "--gear", "52x15", "--rpm", "90", "--json")), "chains");
        assertEquals(6, chains.size());
        for (Map<String, Object> c : chains) {
            // The model's own slope at this effort: 3.427467 W at 0.09, computed.
            assertEquals(3.427467 / 0.09 * number(c, "friction"), number(c, "loss_watts"), 0.003);
            assertEquals(2.5, number(c, "loss_watts_high") - number(c, "loss_watts"), 0.002);
        }
    }

    @Test
    void theCourseForEveryChainAsItStands() {
        Map<String, Object> json = json(run("course", "--km", "40", "--watts", "250", "--json"));
        List<Map<String, Object>> states = list(json, "states");
        assertEquals(9, states.size());
        // Common practice, no source: 40 km at about 250 to 265 W take about 64 minutes.
        assertEquals(64, number(states.get(0), "seconds") / 60, 2);
        assertEquals(0, number(states.get(0), "lost_s"));
        for (Map<String, Object> s : states) {
            assertTrue(number(s, "lost_s_low") < number(s, "lost_s") && number(s, "lost_s") < number(s, "lost_s_high"));
        }
        assertTrue(number(states.get(8), "lost_s") > number(states.get(7), "lost_s"));
    }

    @Test
    void theCostOfFiveProductsRankedWithBands() {
        Map<String, Object> json = json(run("cost", "--json"));
        assertEquals("EUR", json.get("currency"));
        assertEquals(84, (Integer) json.get("rides"));
        List<Map<String, Object>> products = list(json, "products");
        assertEquals(5, products.size());
        double before = 0;
        for (Map<String, Object> p : products) {
            double perWatt =
                    Double.parseDouble(String.valueOf(p.get("watt_year")).replace(" EUR", ""));
            assertTrue(perWatt >= before, "the cheapest watt first");
            before = perWatt;
            double band = 0.01 * number(json, "watts");
            assertEquals(band, number(p, "saved_watts_high") - number(p, "saved_watts"), 0.002);
            assertEquals(
                    number(json, "baseline_loss_watts") - number(p, "loss_watts"), number(p, "saved_watts"), 0.002);
            assertTrue(number(p, "treatments_cautious") > number(p, "treatments"));
        }
        // What was ridden lies between the best and the worst product: the season had all three on.
        double ridden = number(json(run("cost", "--baseline", "ridden", "--json")), "baseline_loss_watts");
        assertTrue(products.stream().anyMatch(p -> number(p, "loss_watts") < ridden), "ridden " + ridden);
    }

    /** Ochre is the next to be late, and Amber, nearly used up on the shelf, goes into the same pot. */
    @Test
    void thePlanProposesAPotSession() {
        Map<String, Object> json = json(run("plan", "--json"));
        Map<String, Object> session = list(json, "sessions").get(0);
        assertEquals(List.of("Ochre", "Amber"), session.get("chains"));
        assertEquals("Kettle Block", session.get("product"));
        assertTrue(number(session, "minutes") < number(session, "minutes_one_by_one"));
        assertEquals(
                list(json, "treatments").stream()
                        .filter(t -> "Ochre".equals(t.get("chain")))
                        .map(t -> t.get("cautious"))
                        .findFirst()
                        .orElseThrow(),
                session.get("by"));
        List<Map<String, Object>> next = list(json, "next");
        assertEquals(
                List.of("Teal", "Amber", "Flint"),
                next.stream().map(n -> n.get("next")).toList());
        assertEquals(3, list(json, "supplies").size());
    }

    /** A ride of the season as a course: as long as its device says, and about as long in time at its own power. */
    @Test
    void aRideOfTheSeasonAsACourse() {
        Map<String, Object> ride = list(json(run("rides", "--json")), "rides").stream()
                .filter(r -> "fit".equals(r.get("format")) && r.get("avg_watts") != null)
                .filter(r -> String.valueOf(r.get("start")).startsWith("2026-08-30"))
                .findFirst()
                .orElseThrow();
        Map<String, Object> json = json(run("course", String.valueOf(ride.get("file")), "--watts", "170", "--json"));
        assertEquals(number(ride, "metres"), number(json, "metres"), 0.02 * number(ride, "metres"));
        double pedalled = number(json, "energy_pedalled_joules");
        double spent = number(json, "energy_air_joules")
                + number(json, "energy_rolling_joules")
                + number(json, "energy_bearings_joules")
                + number(json, "energy_climbing_joules")
                + number(json, "energy_speed_joules")
                + number(json, "energy_brakes_joules");
        assertEquals(pedalled, spent, 4);
    }

    @Test
    void everyRideOfTheSeasonHasItsChain() {
        assertEquals(0.0, number(json(run("due", "--json")), "unattributed_metres"));
    }

    @SuppressWarnings("unchecked")
    private static List<Map<String, Object>> said(Map<String, Object> ride) {
        return (List<Map<String, Object>>) Objects.requireNonNull(ride.get("moisture_said"));
    }

    @Test
    void eachWetRideIsFoundWithoutAFlagAndSaysWhy() {
        // The days on which the season's plan has rain, or mud after a night of it.
        for (String day : List.of(
                "2026-03-08",
                "2026-03-15",
                "2026-03-17",
                "2026-04-06",
                "2026-04-12",
                "2026-04-19",
                "2026-05-02",
                "2026-06-07",
                "2026-07-11")) {
            Map<String, Object> ride =
                    list(json(run("conditions", day, "--json")), "rides").get(0);
            assertEquals("wet", ride.get("moisture"), day);
            assertEquals("records", said(ride).get(0).get("evidence"), day);
            assertTrue(
                    String.valueOf(said(ride).get(0).get("why")).matches("about [0-9.]+ mm of (rain|snow or rain) .*"),
                    day);
        }
        Map<String, Object> dry =
                list(json(run("conditions", "2026-03-14", "--json")), "rides").get(0);
        assertEquals("dry", dry.get("moisture"), "a forecast of showers in the report's trend is no rain");
    }

    @Test
    void aRideInSnowIsGrittyWhereRoadsAreSalted() {
        Map<String, Object> snow =
                list(json(run("conditions", "2026-03-17", "--json")), "rides").get(0);
        assertEquals("gritty", snow.get("grit"));
        assertEquals(0, run("factors", "set", "road.salted", "0").code());
        assertEquals(
                "clean",
                list(json(run("conditions", "2026-03-17", "--json")), "rides")
                        .get(0)
                        .get("grit"));
        assertEquals(0, run("undo").code());
    }

    /** What the file and its name leave out, the table beside the rides tells; without it the default bike has the ride. */
    @Test
    void aBikeThatOnlyTheTableTells() {
        String day = Truth.UNNAMED.toString().substring(0, 10);
        Map<String, Object> told =
                list(json(run("rides", day, "--json")), "rides").get(0);
        assertEquals("Natterjack", told.get("bike"));
        assertTrue(run("rides", day, "--why").out().contains("bike: table"));
        String without = shared.resolve("no-table.sqlite").toString();
        Run.of("--ledger", without, "bike", "add", "Dunlin", "--default");
        Run.of("--ledger", without, "bike", "add", "Natterjack");
        Run.of("--ledger", without, "assign", "--path", "*natterjack*", "--bike", "Natterjack");
        Run.of("--ledger", without, "import", shared.resolve("demo/rides/phone").toString());
        Run rides = Run.of("--ledger", without, "--zone", "UTC", "rides", day, "--json");
        assertEquals("Dunlin", list(json(rides), "rides").get(0).get("bike"), rides.out());
    }

    /** A watch that was started late is of the same outing, which counts once and as far as it went. */
    @Test
    void aRecordingThatBeganLateIsADuplicate() {
        List<Map<String, Object>> both = list(json(run("rides", "2026-08-23", "--all", "--json")), "rides");
        assertEquals(2, both.size());
        Map<String, Object> whole = both.get(0);
        Map<String, Object> part = both.get(1);
        assertEquals(Truth.STARTED_LATE.plus(Truth.LATE).toString(), part.get("start"));
        assertEquals(whole.get("id"), part.get("twin_of"));
        assertEquals(1000 * Truth.LATE_KILOMETRES, number(whole, "metres"), 10);
        assertTrue(number(part, "metres") < 0.7 * number(whole, "metres"), part.toString());
    }

    /** Half past three in the morning by the zone, the evening before by the clocks where it was ridden. */
    @Test
    void aRideAbroadIsOfTheDayThere() {
        String there = Truth.ABROAD.atOffset(Truth.ABROAD_OFFSET).toLocalDate().toString();
        String home = Truth.ABROAD.atOffset(ZoneOffset.UTC).toLocalDate().toString();
        assertNotEquals(home, there);
        List<Map<String, Object>> rides = list(json(run("rides", there, "--json")), "rides");
        assertEquals(1, rides.size());
        assertEquals(Truth.ABROAD.toString(), rides.get(0).get("start"));
        assertEquals(1000 * Truth.ABROAD_KILOMETRES, number(rides.get(0), "metres"), 10);
        assertEquals(ExitCode.USAGE.code(), run("rides", home).code());
    }

    /** What was put into the rides of the trainer lies within the intervals of what was measured, and is told. */
    @Test
    void theTwoMetersMeasureWhatWasPutIn() {
        Map<String, Object> compare = json(run("compare", "--json"));
        Map<String, Object> measured = list(compare, "measured").stream()
                .filter(m -> "firm".equals(m.get("verdict")))
                .findFirst()
                .orElseThrow();
        assertEquals("Hearth Dip", measured.get("better"));
        assertEquals("Fen Grease", measured.get("worse"));
        between(
                number(measured, "more_pct_low"),
                100 * (Truth.TEAL.middle() - Truth.RUSSET.middle()),
                number(measured, "more_pct_high"));
        String words = String.valueOf(json(run("loss", "--pairs", "--json")).get("words"));
        Matcher rise = Pattern.compile("Hearth Dip: at the end of its life .*?\\(([0-9.]+) to ([0-9.]+) %, 80 %\\)")
                .matcher(words);
        assertTrue(rise.find(), words);
        between(Double.parseDouble(rise.group(1)), 100 * Truth.RUSSET.rise(), Double.parseDouble(rise.group(2)));
        assertTrue(words.contains("Fen Grease: 5 rides, too few, or too much alike"), words);
        assertTrue(words.contains("The level is not measured"), words);
    }

    private static void between(double low, double truth, double high) {
        assertTrue(low < truth && truth < high, truth + " between " + low + " and " + high);
    }

    /** loss calls measured what loss --pairs tells, and nothing else. */
    @Test
    void lossMarksWhatIsMeasured() {
        List<Map<String, Object>> chains = list(json(run("loss", "--json")), "chains");
        for (Map<String, Object> c : chains) {
            boolean told = "Hearth Dip".equals(c.get("product"));
            assertEquals(told ? "measured" : "modelled", c.get("over_fresh_from"), c.toString());
        }
    }

    /** The evening on which the trainer took its zero anew is left out, and no other. */
    @Test
    void thePairThatCannotBeComparedIsNamed() {
        List<Map<String, Object>> out = list(json(run("loss", "--pairs", "--json")), "pairs").stream()
                .filter(p -> p.get("missing_pct") == null)
                .toList();
        assertEquals(1, out.size());
        assertTrue(String.valueOf(out.get(0).get("doubts")).contains("as if a meter had been zeroed during the ride"));
        Map<String, Object> ride = list(json(run("rides", Truth.ZERO_TAKEN_ANEW, "--json")), "rides").stream()
                .filter(r -> r.get("twin_of") == null)
                .findFirst()
                .orElseThrow();
        assertEquals(out.get(0).get("id"), ride.get("id"));
    }

    /** By the plan 25 and 60 km after a treatment of which others lasted 300: heard, told as doubtful, not believed. */
    @Test
    void aFalseAlarmIsNamed() {
        String why = String.join(" ", run("due", "--why", "Amber").out().split("\\s+"));
        assertTrue(why.contains("doubted: Amber: Kettle Block of 2026-03-10 00:00 was noisy after only 85.0 km"), why);
        assertTrue(why.contains("25.0 km to 85.0 km"), why);
    }

    /** Heard half-way through a ride, or after it: within that ride the treatment ended. */
    @Test
    void aNoiseWithinARideIsThatRides() throws IOException {
        Path logbook = shared.resolve("demo/logbook.txt");
        String kept = Files.readString(logbook);
        assertTrue(kept.contains("2026-07-11 10:15 remark Ochre noisy"));
        Map<String, Object> ride =
                list(json(run("rides", "2026-07-11", "--json")), "rides").get(0);
        Instant start = Instant.parse(String.valueOf(ride.get("start")));
        Instant heard = Instant.parse("2026-07-11T10:15:00Z");
        assertTrue(start.isBefore(heard) && heard.isBefore(start.plusSeconds((long) number(ride, "elapsed_s"))));
        List<Object> before = list(json(run("compare", "--json")), "products").stream()
                .map(p -> p.get("life_metres"))
                .toList();
        Files.writeString(logbook, kept.replace("2026-07-11 10:15 remark", "2026-07-11 15:00 remark"));
        assertEquals(0, run("import", logbook.toString()).code());
        List<Object> after = list(json(run("compare", "--json")), "products").stream()
                .map(p -> p.get("life_metres"))
                .toList();
        Files.writeString(logbook, kept);
        assertEquals(0, run("import", logbook.toString()).code());
        assertEquals(before, after);
    }

    @Test
    void aSilenceThatWasStatedIsSeen() {
        String why = String.join(" ", run("due", "--why", "Flint").out().split("\\s+"));
        assertTrue(why.contains("1 renewed and quiet at"), why);
    }

    @Test
    void overrulingAWetRideMovesDueAndCanBeTakenBack() {
        Run before = run("due", "--json");
        // Flint's, which has no reading since.
        assertEquals(0, run("tag", "2026-06-07", "dry").code());
        assertNotEquals(before.out(), run("due", "--json").out());
        assertEquals(0, run("undo").code());
        assertEquals(before.out(), run("due", "--json").out());
    }

    @Test
    void takingTheWeatherBackRestoresWhatWasBeforeIt() {
        String without = shared.resolve("without.sqlite").toString();
        String rides = shared.resolve("demo/rides").toString();
        String weather = shared.resolve("demo/weather/reports-2026.txt.gz").toString();
        Run.of("--ledger", without, "import", rides);
        Run before = Run.of("--ledger", without, "rides", "--json");
        assertEquals(
                0,
                Run.of("--ledger", without, "weather", "add", weather, "--station", "0.1,-30.2")
                        .code());
        assertNotEquals(
                before.out(), Run.of("--ledger", without, "rides", "--json").out());
        assertEquals(0, Run.of("--ledger", without, "undo").code());
        assertEquals(
                before.out(), Run.of("--ledger", without, "rides", "--json").out());
        // And back again: what an entry taken back had brought is no longer known, so it can be added anew.
        Run again = Run.of("--ledger", without, "weather", "add", weather, "--station", "0.1,-30.2");
        assertTrue(again.out().contains("4459 new"), again.out());
    }

    @Test
    void theSharesOfEvidenceAddUpToTheDistance() {
        Map<String, Object> json = json(run("conditions", "--json"));
        double ridden = list(json(run("rides", "--json")), "rides").stream()
                .filter(r -> r.get("twin_of") == null)
                .mapToDouble(r -> number(r, "chain_metres"))
                .sum();
        assertEquals(ridden, number(json, "metres"), 1);
        for (String of : List.of("moisture", "grit")) {
            assertEquals(
                    number(json, "metres"),
                    list(json, of).stream()
                            .mapToDouble(s -> number(s, "metres"))
                            .sum(),
                    1);
            assertEquals(
                    1,
                    list(json, of).stream().mapToDouble(s -> number(s, "share")).sum(),
                    0.001);
        }
    }

    @Test
    void anExportThatWasGzippedMakesTheSameLedger() throws IOException {
        String export = run("export").out();
        Path packed = shared.resolve("facts.jsonl.gz");
        try (var out = new java.util.zip.GZIPOutputStream(Files.newOutputStream(packed))) {
            out.write(export.getBytes(java.nio.charset.StandardCharsets.UTF_8));
        }
        String again = shared.resolve("again.sqlite").toString();
        Run in = Run.of("--ledger", again, "import", packed.toString());
        assertEquals(0, in.code(), in.err());
        assertTrue(String.join(" ", in.out().split("\\s+")).contains("brought in"), in.out());
        assertEquals(export, Run.of("--ledger", again, "export").out());
    }
}
