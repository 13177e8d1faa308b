package chainage.simulation;

import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.comparison.PairComparison;
import chainage.ledger.Event;
import chainage.treatment.LifeModel;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import org.junit.jupiter.api.Test;

/**
 * Riders who use two products of one method in turn: how often the one that is said to last longer does. The products of
 * one rider in three are the same in two tins; of the others the one lasts up to 2.2 times as long as the other.
 */
class CompareSimulationTest {
    /** Lives of both products together, at which is asked. */
    private static final List<Integer> SEEN = List.of(6, 12, 24);

    private static final int PAIRS = Integer.getInteger("simulation.pairs", 60);

    private static final Event.ProductDescribed FIRST = product("Kettle Block");
    private static final Event.ProductDescribed SECOND = product("Candle Block");

    private static Event.ProductDescribed product(String name) {
        return new Event.ProductDescribed(name, chainage.ledger.Method.HOT_WAX, null, null);
    }

    /** What was said of pairs. */
    private static final class Row {
        private int differ;
        private int told;
        private int right;
        private double said;
        private int same;
        private int toldSame;

        private void take(double chance, double truth) {
            double of = Math.max(chance, 1 - chance);
            boolean tells = of >= PairComparison.FIRM;
            if (truth == 0) {
                same++;
                toldSame += tells ? 1 : 0;
                return;
            }
            differ++;
            if (tells) {
                told++;
                said += of;
                right += (chance > 0.5) == (truth > 0) ? 1 : 0;
            }
        }
    }

    @Test
    void whatIsSaidToLastLongerDoesAsOftenAsIsSaid() {
        Random random = new Random(20261127);
        Row[] rows = {new Row(), new Row(), new Row()};
        for (int i = 0; i < PAIRS; i++) {
            double truth = i % 3 == 0 ? 0 : 1.6 * random.nextDouble() - 0.8;
            Traits traits = new Traits(t -> {
                t.twoProducts = true;
                t.firstTimes = Math.exp(truth);
                t.method = 0;
            });
            Story story = Rider.story(traits, 5_000 + i, 700);
            for (int s = 0; s < SEEN.size(); s++) {
                if (SEEN.get(s) < story.treatments().size()) {
                    LifeModel lives = story.lives(story.treatments().get(SEEN.get(s)));
                    rows[s].take(lives.of(FIRST).isLonger(lives.of(SECOND)), truth);
                }
            }
        }
        StringBuilder words =
                new StringBuilder("pairs of products: lives seen of both; of those that differ told, said,"
                        + " right; of those that do not told\n");
        int told = 0;
        int right = 0;
        double said = 0;
        for (int s = 0; s < rows.length; s++) {
            Row r = rows[s];
            words.append(String.format(
                    Locale.ROOT,
                    "%2d | %3.0f %% of %d | %3.0f %% | %3.0f %% | %3.0f %% of %d%n",
                    SEEN.get(s),
                    100.0 * r.told / r.differ,
                    r.differ,
                    100 * r.said / r.told,
                    100.0 * r.right / r.told,
                    100.0 * r.toldSame / r.same,
                    r.same));
            told += r.told;
            right += r.right;
            said += r.said;
        }
        System.out.print(words);
        // A share of so many is known to a few per cent; those that are the same are told at most twice as often as by
        // chance.
        double off = 0.05 + 2 * Math.sqrt(0.05 * 0.95 / told);
        assertTrue((double) right / told >= said / told - off, words.toString());
    }
}
