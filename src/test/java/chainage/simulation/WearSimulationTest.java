package chainage.simulation;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/**
 * Elongation told to riders who do not come from the model, beside the true one. The short form; {@code -Dsimulation.riders}
 * makes it longer, {@code -Dsimulation.only} takes some scenarios by their names.
 */
class WearSimulationTest {
    private static final int RIDERS = Integer.getInteger("simulation.riders", 6);
    private static final List<Scenario> ASKED = Stream.of(
                    Scenario.TABLE_TRUE,
                    Scenario.LIFE_DOUBLE,
                    Scenario.LIFE_HALF,
                    Scenario.WEAR_TRIPLE,
                    Scenario.BIASED_RULER,
                    Scenario.GROSS_READINGS,
                    Scenario.GAUGE_ONLY,
                    Scenario.WET_HARDER,
                    Scenario.PRODUCTS_DIFFER)
            .filter(Scenario::isAsked)
            .toList();

    @Test
    void intervalsHoldTheTruthAsOftenAsTheySay() {
        WearTable table = new WearTable();
        for (Scenario scenario : ASKED) {
            for (int rider = 0; rider < RIDERS; rider++) {
                table.take(Rider.story(scenario, 1000 + rider, 900), 40);
            }
        }
        System.out.print(table);
        int looks = 0;
        double held = 0;
        double error = 0;
        double naive = 0;
        for (Scenario scenario : ASKED) {
            for (int i = 1; i < 4; i++) {
                WearTable.Row row = table.row(scenario, i);
                if (row.looks() == 0) {
                    continue;
                }
                looks += row.looks();
                held += row.held() * row.looks();
                if (i > 1) {
                    error += row.error() * row.looks();
                    naive += Math.min(row.tableError(), row.lastError()) * row.looks();
                }
            }
        }
        assertTrue(held / looks > 0.7, "of all 80 % intervals only " + held / looks + " hold the truth");
        assertTrue(error < naive, "error " + error / looks + " against " + naive / looks);
    }
}
