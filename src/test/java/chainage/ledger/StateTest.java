package chainage.ledger;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.lang.reflect.Modifier;
import java.time.Instant;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;

class StateTest {
    /** A field that were left out would let two ledgers pass for the same. */
    @Test
    void everyFieldIsHeldAgainstTheOthers() {
        long fields = Arrays.stream(State.class.getDeclaredFields())
                .filter(f -> !Modifier.isStatic(f.getModifiers()) && !f.isSynthetic())
                .count();
        assertEquals(fields, new State().all().size());
    }

    @Test
    void whereAPowerMeterSitsIsPartOfWhatALedgerMeans() {
        assertTrue(placed(MeterPlace.BEFORE_CHAIN).means(placed(MeterPlace.BEFORE_CHAIN)));
        assertFalse(placed(MeterPlace.BEFORE_CHAIN).means(placed(MeterPlace.BEHIND_CHAIN)));
    }

    private static Ledger placed(MeterPlace place) {
        return Ledger.of(
                List.of(new Entry(1, 1, Instant.EPOCH, new Event.MeterPlaced("bike_power", "4001", place, null))));
    }
}
