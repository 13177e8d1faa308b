package chainage.simulation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.TestLedger;
import chainage.analysis.Analysis;
import chainage.analysis.Snapshot;
import chainage.analysis.Tables;
import chainage.answer.due.DueAnswer;
import chainage.ledger.Entry;
import chainage.ledger.Event;
import chainage.ledger.Grit;
import chainage.ledger.Moisture;
import chainage.render.Formatter;
import chainage.standing.Standing;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** More wet and more dirt bring the next treatment forward, by what the ride counts more, and taken back leave nothing. */
class ForwardTest {
    private static final Tables TABLES = TestLedger.tables();

    private static Analysis at(Story story, Instant at, Event... more) {
        List<Entry> entries = new ArrayList<>(story.entries());
        for (Event e : more) {
            long n = entries.size() + 1L;
            entries.add(new Entry(n, n, Instant.parse("2026-01-01T00:00:00Z"), e));
        }
        return Analysis.of(
                new Snapshot(
                        entries,
                        story.outings().stream().map(Story.Outing::ride).toList(),
                        Map.of()),
                TABLES,
                at);
    }

    private static double counted(Standing s) {
        return s.treatment().exposureMetres();
    }

    private static String bytes(Analysis analysis) {
        return new DueAnswer(analysis, analysis.standings(), true, new Formatter(false, ZoneOffset.UTC), null)
                .json()
                .fields()
                .toString();
    }

    /** A thousand ledgers of all kinds of riders. */
    @Test
    void ofTheRunningTreatmentMoreWetNeverGivesMoreTime() {
        Random random = new Random(20261127);
        Scenario[] scenarios = Scenario.values();
        int tried = 0;
        for (int seed = 1; tried < 1000; seed++) {
            Story story = Rider.story(scenarios[seed % scenarios.length], 1000 + seed, 30 + random.nextInt(90));
            Story.Treatment t =
                    story.treatments().get(random.nextInt(story.treatments().size()));
            if (t.lastRide() == t.firstRide()) {
                continue;
            }
            tried++;
            int last = t.firstRide() + random.nextInt(t.lastRide() - t.firstRide());
            Instant now = story.outings().get(last).start().plusSeconds(8 * 3600);
            Story.Outing ride = story.outings().get(t.firstRide() + random.nextInt(last - t.firstRide() + 1));
            Moisture wetter = ride.moisture() == Moisture.DRY && random.nextBoolean() ? Moisture.DAMP : Moisture.WET;
            Grit dirtier = ride.grit() == Grit.CLEAN && random.nextBoolean() ? Grit.DUSTY : Grit.GRITTY;
            boolean both = random.nextBoolean();
            boolean wet = both || random.nextBoolean();
            Event tag =
                    new Event.Tagged(List.of(ride.ride().id()), wet ? wetter : null, 1, both || !wet ? dirtier : null);

            Analysis before = at(story, now);
            Analysis after = at(story, now, tag);
            Standing was = before.standing(t.chain()).orElseThrow();
            Standing is = after.standing(t.chain()).orElseThrow();
            String what = story.scenario() + " seed " + seed + ", " + ride.moisture() + " " + ride.grit() + " " + tag;
            double more = counted(is) - counted(was);
            if (was.treatment().noisy() != null) {
                // Heard already: it is due whatever it counts, and teaches as one that is over.
                assertTrue(is.treatment().used() >= 1, what);
            } else {
                assertTrue(more >= -1e-6, what);
                double sooner = was.treatment().dueInMetres() - is.treatment().dueInMetres();
                assertEquals(more, sooner, 1e-6 * Math.max(1, more), what);
            }
            if (ride.moisture() == Moisture.DRY && ride.grit() == Grit.CLEAN) {
                Event back = new Event.Untagged(List.of(ride.ride().id()));
                if (tried % 10 == 0) {
                    assertEquals(bytes(before), bytes(at(story, now, tag, back)), what);
                }
            }
        }
    }

    /** One muddy ride more or less under a treatment that is over long since is a small piece of evidence. */
    @Test
    void aTagOnAnEarlierTreatmentMovesLimitsAsFarAsItIsEvidence() {
        List<Double> moves = new ArrayList<>();
        for (int seed = 1; seed <= 60; seed++) {
            Story story = Rider.story(Scenario.TABLE_TRUE, seed, 400);
            int which = Math.min(story.treatments().size() - 1, 9);
            Story.Treatment now = story.treatments().get(which);
            Story.Treatment earlier = story.treatments().get(which - 2);
            story.outings().subList(earlier.firstRide(), earlier.lastRide()).stream()
                    .filter(o -> o.moisture() == Moisture.DRY && o.grit() == Grit.CLEAN)
                    .findFirst()
                    .ifPresent(o -> {
                        Event muddy = new Event.Tagged(List.of(o.ride().id()), Moisture.WET, 1, Grit.GRITTY);
                        double was = limit(at(story, now.at()), now);
                        double is = limit(at(story, now.at(), muddy), now);
                        moves.add(Math.abs(Math.log(is / was)));
                    });
        }
        moves.sort(null);
        double median = moves.get(moves.size() / 2);
        double nine = moves.get(moves.size() * 9 / 10);
        System.out.printf(
                "lives: one earlier ride of %d riders tagged muddy moves the limit by %.1f %%, of one in ten by over"
                        + " %.1f %%%n",
                moves.size(), 100 * median, 100 * nine);
        assertTrue(median <= 0.1, "median " + median);
        assertTrue(nine <= 0.2, "of one in ten " + nine);
    }

    private static double limit(Analysis analysis, Story.Treatment t) {
        return analysis.standing(t.chain()).orElseThrow().treatment().limitMetres();
    }
}
