package chainage.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.TestLedger;
import chainage.TestRides;
import chainage.analysis.Analysis;
import chainage.analysis.Gist;
import chainage.analysis.Snapshot;
import chainage.answer.due.DueAnswer;
import chainage.answer.rides.RidesAnswer;
import chainage.attribution.AttributedRide;
import chainage.attribution.Overlap;
import chainage.exposure.ChainExposure;
import chainage.exposure.RideExposure;
import chainage.exposure.TreatmentSchedule;
import chainage.ledger.Cleaning;
import chainage.ledger.Entry;
import chainage.ledger.Event;
import chainage.ledger.Grit;
import chainage.ledger.Ledger;
import chainage.ledger.Moisture;
import chainage.ledger.Reading;
import chainage.ledger.Remark;
import chainage.ledger.Rule;
import chainage.quantity.LocalClock;
import chainage.recall.Recall;
import chainage.render.Formatter;
import chainage.render.Out;
import chainage.ride.FiledRide;
import chainage.ride.Pedalling;
import chainage.ride.Ride;
import chainage.ride.RideFormat;
import chainage.standing.Standing;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Random;
import java.util.regex.Pattern;
import java.util.stream.LongStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** What holds for every ledger, tried on seeded random ones; a failure names its seed. */
class PropertiesTest {
    private static final Instant NOW = Instant.parse("2026-12-31T00:00:00Z");
    private static final List<String> BIKES = List.of("Dunlin", "Natterjack");
    private static final List<String> CHAINS = List.of("Amber", "Ochre", "Moss", "Flint");
    private static final List<String> METHODS = List.of("hot-wax", "drip-wax", "wet-lube", "dry-lube", "none");

    static LongStream seeds() {
        return LongStream.range(0, 200);
    }

    /** A year of rides on two bikes, chains swapped and treated at random, never two on one bike. */
    private static final class World {
        final Random random;
        final TestLedger ledger = new TestLedger();
        final List<FiledRide> rides = new ArrayList<>();

        World(long seed) {
            random = new Random(seed);
            BIKES.forEach(ledger::bike);
            CHAINS.forEach(ledger::chain);
            ledger.add(
                    new Event.RuleSet(new Rule(new Rule.Sensor("bike_power", "1"), "Dunlin", null)),
                    new Event.RuleSet(new Rule(new Rule.Path("gravel"), "Natterjack", null)));
            Map<String, String> on = new HashMap<>();
            for (int i = 0; i < 30; i++) {
                Instant t = day(random.nextInt(365));
                String chain = CHAINS.get(random.nextInt(CHAINS.size()));
                if (random.nextBoolean()) {
                    ledger.add(new Event.Treated(
                            chain, METHODS.get(random.nextInt(METHODS.size())), t, Cleaning.QUICK, null, null));
                }
            }
            for (int i = 0, d = 0; i < 20; i++) {
                d += 1 + random.nextInt(20);
                Instant t = day(d).plusSeconds(random.nextInt(86_400));
                String bike = BIKES.get(random.nextInt(2));
                String chain = CHAINS.get(random.nextInt(CHAINS.size()));
                String there = on.remove(bike);
                if (there != null) {
                    ledger.add(new Event.Removed(there, t));
                }
                if (!on.containsValue(chain) && random.nextInt(4) > 0) {
                    ledger.add(new Event.Installed(chain, bike, t));
                    on.put(bike, chain);
                }
            }
            for (int i = 0; i < 120; i++) {
                Instant t = day(random.nextInt(365)).plusSeconds(random.nextInt(86_400));
                TestRides r = TestRides.ride("r" + seed + "-" + i, t.toString(), 5 + random.nextInt(120));
                if (random.nextBoolean()) {
                    r = r.sensor("bike_power", "1");
                } else if (random.nextBoolean()) {
                    r = r.path("/x/gravel/" + i + ".fit");
                }
                if (random.nextInt(8) == 0) {
                    r = indoor(r);
                }
                if (random.nextInt(5) == 0) {
                    r = r.weather(t.toString(), random.nextBoolean(), "rain");
                }
                rides.add(r.filed());
                if (random.nextInt(6) == 0) {
                    rides.add(copy(r, seed + "-" + i));
                }
            }
            rides.sort(FiledRide.BY_START);
        }

        private static TestRides indoor(TestRides r) {
            Pedalling.Row row = new Pedalling.Row(0, 0, 7.1, r.seconds(), r.metres() / 7.1, Double.NaN, r.metres());
            return r.sport("cycling", "indoor_cycling", Ride.Activity.Kind.CYCLING, true)
                    .pedalled(new Pedalling(List.of(row), 0, 0));
        }

        /** The same outing by another device or exported once more, now and then without a sport or cut short. */
        private FiledRide copy(TestRides r, String name) {
            double share = random.nextInt(3) == 0 ? 0.6 : 1 + 0.02 * random.nextDouble();
            TestRides c = TestRides.ride(
                            "copy" + name,
                            r.start().plusSeconds(random.nextInt(20)).toString(),
                            1)
                    .format(List.of(RideFormat.FIT, RideFormat.TCX, RideFormat.GPX)
                            .get(random.nextInt(3)))
                    .lasting(r.seconds() * Math.min(1, share))
                    .over(r.metres() * share);
            if (share < 1) {
                c = c.salvagedFrom("the end is missing");
            } else if (random.nextBoolean()) {
                c = c.sport("", "", Ride.Activity.Kind.UNSTATED, false);
            }
            return c.filed();
        }

        private static Instant day(int n) {
            return Instant.parse("2026-01-01T00:00:00Z").plusSeconds(86_400L * n);
        }

        /** Something that is stated late, of any day, about any of it. */
        Event correction() {
            List<Entry> before = ledger.entries();
            long any = 1L + random.nextInt(before.size());
            Instant t = day(random.nextInt(400));
            String chain = CHAINS.get(random.nextInt(CHAINS.size()));
            return switch (random.nextInt(6)) {
                case 0 -> new Event.Undone(any);
                case 1 -> new Event.Redated(any, t);
                case 2 ->
                    new Event.Measured(
                            chain, t, new Reading.Elongation(random.nextInt(8) / 10.0, Reading.Tool.CALLIPER, 24));
                case 3 -> new Event.Remarked(chain, t, random.nextBoolean() ? Remark.NOISY : Remark.RETIRED, "");
                case 4 ->
                    new Event.Tagged(
                            List.of(rides.get(random.nextInt(rides.size())).id()), Moisture.WET, 1, Grit.GRITTY);
                default -> new Event.Treated(chain, "hot-wax", t, Cleaning.DEEP, null, null);
            };
        }

        List<Overlap> overlaps() {
            Snapshot facts = new Snapshot(ledger.entries(), rides, Map.of());
            return Analysis.of(facts, TestLedger.tables(), day(500)).overlaps();
        }

        Analysis analysis() {
            return analysis(ledger.entries());
        }

        Analysis analysis(List<Entry> entries) {
            return Analysis.of(new Snapshot(entries, rides, Map.of()), TestLedger.tables(), NOW);
        }
    }

    /** Replaying a chain's rides with what was really put on it is the ledger's own exposure, to the last bit. */
    @ParameterizedTest
    @MethodSource("seeds")
    void replayingWhatWasNotedIsTheLedgersOwnExposure(long seed) {
        Analysis p = new World(seed).analysis();
        p.exposures().chains().forEach((name, chain) -> {
            assertEquals(
                    chain,
                    TreatmentSchedule.noted(p.ledger(), name).over(chain, p.factors(), p.lives()::likelyMetres),
                    "seed " + seed);
            // And each ride under its own product alone uses up as much as it did.
            for (RideExposure r : chain.rides()) {
                TreatmentSchedule alone = TreatmentSchedule.renewed(r.product(), Instant.MIN, Double.POSITIVE_INFINITY);
                double same = alone.over(chain, p.factors(), p.lives()::likelyMetres).rides().stream()
                        .filter(o -> o.ride().id().equals(r.ride().id()))
                        .findFirst()
                        .orElseThrow()
                        .treatmentMetres();
                assertEquals(r.treatmentMetres(), same, 0, "seed " + seed);
            }
        });
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void theWorldItselfHasNoContradiction(long seed) {
        assertEquals(List.of(), new World(seed).analysis().ledger().problems());
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void attributedAndUnattributedAddUpToAllThatWasRidden(long seed) {
        Analysis p = new World(seed).analysis();
        double ridden = p.rides().stream()
                .filter(AttributedRide::counted)
                .mapToDouble(p.exposures()::metresOf)
                .sum();
        double attributed = p.exposures().chains().values().stream()
                .mapToDouble(c -> c.riddenMetres())
                .sum();
        assertEquals(ridden, attributed + p.exposures().unattributedMetres(), 1e-6);
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void everyTwinPointsAtARideThatCounts(long seed) {
        Analysis p = new World(seed).analysis();
        Map<String, AttributedRide> byId = new HashMap<>();
        p.rides().forEach(r -> byId.put(r.id(), r));
        for (AttributedRide r : p.rides()) {
            if (r.verdict() == AttributedRide.Verdict.TWIN) {
                AttributedRide of = Objects.requireNonNull(byId.get(r.twinOf()), r.id());
                assertTrue(of.counted() && of.twins().contains(r.filed()), r.id());
            }
        }
    }

    /** What holds for one seed alone could hold by never being tried. */
    @Test
    void theWorldsHoldWhatTheyAreMeantToTry() {
        int twins = 0;
        int indoor = 0;
        for (long seed = 0; seed < 20; seed++) {
            for (AttributedRide r : new World(seed).analysis().rides()) {
                twins += r.verdict() == AttributedRide.Verdict.TWIN ? 1 : 0;
                indoor += r.counted() && r.filed().ride().activity().indoor() ? 1 : 0;
            }
        }
        assertTrue(twins > 100 && indoor > 100, twins + " twins, " + indoor + " indoor rides");
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void taggingWetterOrGrittierNeverLeavesMore(long seed) {
        World w = new World(seed);
        FiledRide r = w.rides.get(w.random.nextInt(w.rides.size()));
        List<Event> mildToHarsh = List.of(
                new Event.Tagged(List.of(r.id()), Moisture.DRY, 1, Grit.CLEAN),
                new Event.Tagged(List.of(r.id()), Moisture.DAMP, 1, Grit.CLEAN),
                new Event.Tagged(List.of(r.id()), Moisture.WET, 1, Grit.CLEAN),
                new Event.Tagged(List.of(r.id()), Moisture.WET, 1, Grit.DUSTY),
                new Event.Tagged(List.of(r.id()), Moisture.WET, 1, Grit.GRITTY));
        Analysis milder = null;
        for (Event tag : mildToHarsh) {
            w.ledger.add(tag);
            Analysis now = w.analysis();
            Analysis before = milder;
            // A ride on a treatment that is over teaches how long treatments last and how hard roads are on them, and
            // may
            // make others count less; one on a treatment in force counts more itself and changes no other.
            if (before != null && before.standings().stream().anyMatch(s -> isInForce(s, r))) {
                for (Standing s : before.standings()) {
                    Standing n = now.standing(s.chain()).orElseThrow();
                    assertTrue(n.treatment().exposureMetres() >= s.treatment().exposureMetres() - 1e-9, s.chain());
                    if (isInForce(s, r)) {
                        assertTrue(n.treatment().dueInMetres() <= s.treatment().dueInMetres() + 1e-9, s.chain());
                        assertTrue(n.treatment().used() >= s.treatment().used() - 1e-12, s.chain());
                    }
                    // A life that is learnt to be longer lets the chain wear less past the table's; with lives as they
                    // were more wet and grit never counts less.
                    double asBefore = Objects.requireNonNull(now.exposures()
                                    .lasting(now.ledger(), now.factors(), before.lives()::likelyMetres)
                                    .chains()
                                    .get(s.chain()))
                            .elongationPercent();
                    assertTrue(asBefore >= s.wear().expectedPercent() - 1e-12, s.chain());
                }
            }
            milder = now;
        }
    }

    /** Whether a ride was on a treatment that is in force and was not heard. */
    private static boolean isInForce(Standing s, FiledRide ride) {
        return s.treatment().noisy() == null
                && s.exposure().sinceTreatment().stream()
                        .anyMatch(e -> e.ride().id().equals(ride.id()));
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void movingAnInstallationMovesExactlyTheRidesBetween(long seed) {
        World w = new World(seed);
        Analysis before = w.analysis();
        List<Entry> installs = before.entries().stream()
                .filter(e -> e.event() instanceof Event.Installed)
                .toList();
        Entry moved = installs.get(w.random.nextInt(installs.size()));
        Event.Installed was = (Event.Installed) moved.event();
        Instant end = before.entries().stream()
                .filter(e -> e.event() instanceof Event.Removed r
                        && r.chain().equals(was.chain())
                        && r.at().isAfter(was.at()))
                .map(e -> e.happened().orElseThrow())
                .min(Instant::compareTo)
                .orElse(Instant.MAX);
        // Later than its own removal is refused before it is written.
        Instant within = Stream.of(end, was.at().plus(Duration.ofDays(20)))
                .min(Instant::compareTo)
                .orElseThrow();
        Instant later = was.at().plusSeconds((long)
                (w.random.nextDouble() * Duration.between(was.at(), within).toSeconds()));
        List<Entry> entries = new ArrayList<>(before.entries());
        entries.replaceAll(e -> e.number() == moved.number()
                ? new Entry(e.number(), e.command(), e.recorded(), new Event.Installed(was.chain(), was.bike(), later))
                : e);
        assertEquals(List.of(), Ledger.of(entries).problems());
        Analysis after = w.analysis(entries);
        Map<String, String> places = new HashMap<>();
        before.rides().forEach(r -> places.put(r.id(), String.valueOf(r.chain())));
        for (AttributedRide r : after.rides()) {
            Instant start = r.filed().ride().start();
            boolean between = was.bike().equals(r.bike()) && !start.isBefore(was.at()) && start.isBefore(later);
            boolean changed = !String.valueOf(r.chain()).equals(places.get(r.id()));
            assertEquals(r.counted() && between, changed, r.id() + " at " + start);
        }
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void undoingEverythingInAnyOrderLeavesNothing(long seed) {
        World w = new World(seed);
        List<Entry> facts = w.ledger.entries();
        String empty = w.analysis(List.of()).standings().toString();
        List<Long> numbers = new ArrayList<>(facts.stream().map(Entry::number).toList());
        java.util.Collections.shuffle(numbers, w.random);
        numbers.forEach(n -> w.ledger.add(new Event.Undone(n)));
        assertEquals(empty, w.analysis().standings().toString());
        int undos = w.ledger.entries().size();
        for (long n = facts.size() + 1L; n <= undos; n++) {
            w.ledger.add(new Event.Undone(n));
        }
        assertEquals(
                w.analysis(facts).standings().toString(),
                w.analysis().standings().toString());
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void untaggingRestoresTheSameAnswer(long seed) {
        World w = new World(seed);
        FiledRide r = w.rides.get(w.random.nextInt(w.rides.size()));
        Formatter format = new Formatter(false, java.time.ZoneOffset.UTC);
        String before = json(w.analysis(), format);
        w.ledger.add(new Event.Tagged(List.of(r.id()), Moisture.WET, 1, Grit.GRITTY));
        w.ledger.add(new Event.Untagged(List.of(r.id())));
        assertEquals(before, json(w.analysis(), format));
    }

    /** What a spreadsheet adds up: twins, runs and the rest have nothing in that column. */
    @ParameterizedTest
    @MethodSource("seeds")
    void theCountedColumnOfTheRidesAddsUpToWhatDueSays(long seed) {
        Analysis p = new World(seed).analysis();
        Formatter format = new Formatter(false, java.time.ZoneOffset.UTC);
        String rides = new RidesAnswer(
                        p,
                        p.rides().stream()
                                .flatMap(r -> RidesAnswer.Row.of(p, r, format))
                                .toList(),
                        false,
                        format,
                        null)
                .json()
                .text();
        double sum = Pattern.compile("\"counted_metres\" *: *([0-9.E]+)")
                .matcher(rides)
                .results()
                .mapToDouble(m -> Double.parseDouble(m.group(1)))
                .sum();
        double due = p.exposures().unattributedMetres()
                + p.exposures().chains().values().stream()
                        .mapToDouble(ChainExposure::riddenMetres)
                        .sum();
        assertTrue(due > 0);
        assertEquals(due, sum, 0.001 * p.rides().size());
    }

    static LongStream sequences() {
        return LongStream.range(0, Long.getLong("recall.sequences", 60));
    }

    /**
     * What is kept of an analysis gives the same answers, to the last bit, at every instant for which it holds; whatever
     * was stated, back-dated, corrected or taken back, and whatever lies ahead.
     */
    @ParameterizedTest
    @MethodSource("sequences")
    void whatIsKeptAnswersAsTheFactsDo(long seed, @TempDir Path folder) {
        World w = new World(seed);
        for (int i = 0; i < 8; i++) {
            w.ledger.add(w.correction());
        }
        // Of two outings of one bike at one time nothing is kept.
        for (List<Overlap> o = w.overlaps(); !o.isEmpty(); o = w.overlaps()) {
            o.forEach(two -> w.rides.remove(two.second().filed()));
        }
        Snapshot facts = new Snapshot(w.ledger.entries(), w.rides, Map.of());
        Instant at = World.day(150 + w.random.nextInt(220)).plusSeconds(w.random.nextInt(86_400));
        LocalClock utc = LocalClock.of(java.time.ZoneOffset.UTC);
        Gist gist = Analysis.of(facts, TestLedger.tables(), at).gist(facts, utc).orElseThrow();
        Recall recall = new Recall(folder.resolve("kept"));
        Recall.Key key = new Recall.Key(folder, "", "", "");
        Recall.Kept kept = new Recall.Kept("0123456789abcdef0123456789abcdef", gist);
        recall.keep(key, kept);
        assertEquals(kept, recall.of(key).orElseThrow());
        Instant until = gist.until() == null ? at.plusSeconds(40 * 86_400L) : gist.until();
        assertFalse(gist.holds(gist.from().minusNanos(1)));
        assertTrue(gist.until() == null || !gist.holds(until));
        for (Instant then : List.of(at, gist.from(), until.minusNanos(1))) {
            Analysis whole = Analysis.of(facts, TestLedger.tables(), then);
            Analysis recalled = Analysis.recalled(facts.entries(), gist, TestLedger.tables(), then, () -> {
                throw new AssertionError("asked for the rides");
            });
            assertEquals(text(whole), text(recalled));
            for (Standing s : whole.standings()) {
                Standing r = recalled.standing(s.chain()).orElseThrow();
                assertEquals(
                        Arrays.asList(
                                s.treatOn(),
                                s.treatBy(),
                                s.replaceOn(),
                                s.usualRideMetres(),
                                s.usualCounts(),
                                s.freshDays(),
                                s.installation()),
                        Arrays.asList(
                                r.treatOn(),
                                r.treatBy(),
                                r.replaceOn(),
                                r.usualRideMetres(),
                                r.usualCounts(),
                                r.freshDays(),
                                r.installation()));
            }
            assertEquals(gist, whole.gist(facts, utc).orElseThrow());
            assertTrue(recall.agrees(key, new Recall.Kept(kept.state(), gist)));
        }
    }

    private static String text(Analysis p) {
        StringWriter text = new StringWriter();
        DueAnswer due = new DueAnswer(p, p.standings(), false, new Formatter(false, java.time.ZoneOffset.UTC), null);
        due.print(new Out(new PrintWriter(text), 80, false));
        return text + String.join("\n", due.contradictions()) + due.notices();
    }

    private static String json(Analysis p, Formatter format) {
        return new DueAnswer(p, p.standings(), false, format, null).json().text();
    }
}
