package chainage.simulation;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Riders who do not come from the model, and what it makes of their treatments' lives. */
class LivesSimulationTest {
    /** The treatments at whose start is looked. */
    private static final int[] LOOKS = {0, 1, 2, 4, 6, 8, 10, 13, 17, 22, 28, 36};

    private static final int RIDERS = Integer.getInteger("simulation.riders", 6);

    /** Those whose oddness touches treatments. */
    private static final List<Scenario> SCENARIOS = Arrays.stream(Scenario.values())
            .filter(s -> !EnumSet.of(
                            Scenario.WEAR_TRIPLE, Scenario.BIASED_RULER, Scenario.GROSS_READINGS, Scenario.GAUGE_ONLY)
                    .contains(s))
            .filter(Scenario::isAsked)
            .toList();

    @Test
    void livesAreAsOftenWithinTheirIntervalsAsTheyAreSaidToBe() {
        LivesTable table = new LivesTable();
        for (Scenario scenario : SCENARIOS) {
            for (int i = 0; i < RIDERS; i++) {
                table.take(Rider.story(scenario, i + 1, 600), LOOKS);
            }
        }
        System.out.print(table.words());
        if (Scenario.TABLE_TRUE.isAsked()) {
            for (LivesTable.Row row : table.rows(Scenario.TABLE_TRUE)) {
                assertTrue(row.looks() == 0 || row.nextHeld() >= 0.6, table.words());
            }
        }
    }
}
