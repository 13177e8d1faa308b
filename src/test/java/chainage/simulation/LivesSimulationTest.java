package chainage.simulation;

import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

/** Riders who do not come from the model, and what it makes of their treatments' lives. */
class LivesSimulationTest {
    /** The treatments at whose start is looked. */
    private static final int[] LOOKS = {0, 1, 2, 4, 6, 8, 10, 13, 17, 22, 28, 36};

    private static final int RIDERS = Integer.getInteger("simulation.riders", 6);

    @Test
    void livesAreAsOftenWithinTheirIntervalsAsTheyAreSaidToBe() {
        LivesTable table = new LivesTable();
        for (Scenario scenario : Scenario.values()) {
            for (int i = 0; i < RIDERS; i++) {
                table.take(Rider.story(scenario, i + 1, 600), LOOKS);
            }
        }
        System.out.print(table.words());
        for (LivesTable.Row row : table.rows(Scenario.TABLE_TRUE)) {
            assertTrue(row.looks() == 0 || row.nextHeld() >= 0.6, table.words());
        }
    }
}
