package chainage.simulation;

import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.TestLedger;
import chainage.evidence.RiderEvidence;
import chainage.exposure.Factors;
import chainage.treatment.OtherRiders;
import chainage.treatment.RiderLives;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import org.junit.jupiter.api.Test;

/**
 * Clubs whose product is not as the table has it, whose roads are not either, and whose riders differ: what the others' files
 * tell a rider who joins. Nothing of it comes from the models.
 */
class ClubSimulationTest {
    private static final int CLUBS = Integer.getInteger("simulation.clubs", 6);
    private static final int JOIN = Integer.getInteger("simulation.join", 3);

    private static final Factors FACTORS = TestLedger.factors();

    /** Before any life of one's own, after a few and after some more. */
    private static final int[] LOOKS = {0, 2, 7};

    /** How a club is made up. */
    private record Club(String words, int riders, int liars) {}

    private static final List<Club> KINDS =
            List.of(new Club("5 riders", 5, 0), new Club("5, one a liar", 5, 1), new Club("15 riders", 15, 0));

    @Test
    void aRiderWhoJoinsKnowsMoreThanTheTable() {
        StringBuilder words =
                new StringBuilder("a rider who joins, first treatment, then after 1-4 and 5-9 lives: 80 % interval of"
                        + " the next life held it, its width against one who knows, mean error in the log of when it ends\n"
                        + "club          | told by    | held 0 1 5 | width 0 1 5    | error 0 1 5\n");
        List<Runnable> checks = new ArrayList<>();
        for (Club club : KINDS) {
            LivesTable alone = new LivesTable();
            LivesTable told = new LivesTable();
            for (int c = 0; c < CLUBS; c++) {
                Random random = new Random(1000L * c + 5);
                Place place =
                        new Place(c % 3, Math.exp(0.35 * random.nextGaussian()), Math.exp(0.3 * random.nextGaussian()));
                List<RiderLives> files = new ArrayList<>();
                for (int r = 0; r < club.riders(); r++) {
                    double lie = r < club.liars() ? (random.nextBoolean() ? 4 : 0.25) : 1;
                    RiderEvidence file = Rider.story(place.rider(random, lie), 100L * c + r + 1, 400)
                            .evidence();
                    files.add(RiderLives.of(
                            file.treatments().stream()
                                    .map(t -> t.life(String.valueOf(t.product()), FACTORS))
                                    .toList(),
                            FACTORS));
                }
                OtherRiders others = OtherRiders.of(files, List.of(), FACTORS);
                for (int j = 0; j < JOIN; j++) {
                    Story joins = Rider.story(place.rider(random, 1), 100L * c + 50 + j, 500);
                    alone.take(joins, LOOKS, t -> joins.known(t, OtherRiders.NONE));
                    told.take(joins, LOOKS, t -> joins.known(t, others));
                }
            }
            LivesTable.Row[] by = alone.rows(Scenario.TABLE_TRUE);
            LivesTable.Row[] of = told.rows(Scenario.TABLE_TRUE);
            words.append(line(club.words(), "the table", by)).append(line("", "the others", of));
            checks.add(() -> {
                assertTrue(of[0].nextHeld() >= (club.liars() > 0 ? 0.6 : 0.65), words::toString);
                assertTrue(of[0].width() <= (club.liars() > 0 ? 0.9 : 0.7) * by[0].width(), words::toString);
                assertTrue(of[0].error() < by[0].error(), words::toString);
            });
        }
        System.out.print(words);
        checks.forEach(Runnable::run);
    }

    private static String line(String club, String by, LivesTable.Row[] rows) {
        StringBuilder held = new StringBuilder();
        StringBuilder width = new StringBuilder();
        StringBuilder error = new StringBuilder();
        for (int i = 0; i < 3; i++) {
            held.append(String.format(Locale.ROOT, " %3.0f", 100 * rows[i].nextHeld()));
            width.append(String.format(Locale.ROOT, " %4.2f", rows[i].width()));
            error.append(String.format(Locale.ROOT, " %4.2f", rows[i].error()));
        }
        return String.format(Locale.ROOT, "%-13s | %-10s |%s |%s |%s%n", club, by, held, width, error);
    }

    /** Where a club rides, and what with. */
    private record Place(int method, double lifeTimes, double wetTimes) {
        Traits rider(Random random, double lie) {
            double wet = wetTimes * Math.exp(0.15 * random.nextGaussian());
            double noted = random.nextDouble() < 0.2 ? 0.6 : 1;
            return new Traits(t -> {
                t.method = method;
                t.lifeTimes = lifeTimes * lie;
                t.wetTimes = wet;
                t.noted = noted;
            });
        }
    }
}
