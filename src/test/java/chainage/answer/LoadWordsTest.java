package chainage.answer;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;

import chainage.drivetrain.Gear;
import chainage.drivetrain.Load;
import chainage.drivetrain.LoadReason;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;

class LoadWordsTest {
    private static final Gear GEAR = new Gear(50, 17);

    private static final List<LoadReason> ALL = List.of(
            new LoadReason.NoPower(true),
            new LoadReason.NoTime(),
            new LoadReason.NoDistance(),
            new LoadReason.MeanPower(GEAR, true),
            new LoadReason.ReferenceGear(GEAR, true),
            new LoadReason.ByGear(LoadReason.Gears.BOTH),
            new LoadReason.Unfitting(0.5, GEAR),
            new LoadReason.Several(1),
            new LoadReason.WithoutCadence(0.6),
            new LoadReason.Uncovered(0.125),
            new LoadReason.Cut(900.4, 529.6),
            new LoadReason.Bound(5.125, 4),
            new LoadReason.Motor(1.5, "your own value"));

    @Test
    void everyReasonHasWords() {
        assertEquals(
                Set.of(LoadReason.class.getPermittedSubclasses()),
                ALL.stream().map(LoadReason::getClass).collect(Collectors.toSet()));
        ALL.forEach(r -> assertFalse(LoadWords.of(List.of(r)).isBlank()));
    }

    @Test
    void theFirstReasonStandsAloneAndAllStandTogether() {
        Load load = new Load(4, true, 1, ALL.subList(11, 13));
        assertEquals("5.13 taken as 4.00, the bound of what is believed", LoadWords.first(load));
        assertEquals(
                "5.13 taken as 4.00, the bound of what is believed; a motor helps, 1.5 times (load.motor, your own"
                        + " value)",
                LoadWords.all(load));
        Load unknown = new Load(1, false, 0, List.of(new LoadReason.NoPower(false)));
        assertEquals("no power and no cadence in the file, so taken as 1", LoadWords.first(unknown));
    }
}
