package chainage.cost;

import static org.junit.jupiter.api.Assertions.assertEquals;

import chainage.TestLedger;
import chainage.ledger.Cleaning;
import chainage.ledger.Event;
import chainage.ledger.Ledger;
import chainage.ledger.Method;
import chainage.quantity.Money;
import java.time.Instant;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;

/** What a treatment takes, and what is left of what was bought. */
class StockTest {
    private static final Event.ProductDescribed KETTLE =
            new Event.ProductDescribed("Kettle Block", Method.HOT_WAX, new Money(2750, "EUR"), 40.0, 5.0, 20.0);
    private static final Event.ProductDescribed BARE =
            new Event.ProductDescribed("Marsh Oil", Method.WET_LUBE, null, 100.0);

    private static Instant day(int day) {
        return Instant.parse("2026-03-01T00:00:00Z").plusSeconds(86_400L * day);
    }

    private static Event.Treated treated(
            String product, int day, Cleaning cleaning, @Nullable Double ml, @Nullable Double minutes) {
        return new Event.Treated(day % 2 == 0 ? "Amber" : "Ochre", product, day(day), cleaning, ml, minutes);
    }

    private static TestLedger ledger() {
        return new TestLedger().chain("Amber").chain("Ochre").add(KETTLE, BARE);
    }

    @Test
    void withoutATreatmentADoseIsWhatWasEntered() {
        assertEquals(new Dose(5, 20, Cleaning.QUICK, 0), Dose.of(ledger().ledger(), KETTLE));
        assertEquals(new Dose(Double.NaN, Double.NaN, Cleaning.QUICK, 0), Dose.of(ledger().ledger(), BARE));
    }

    @Test
    void notedAmountsAndTimesCountInPlaceOfTheEnteredOnes() {
        Ledger ledger = ledger().add(
                        treated("Kettle Block", 1, Cleaning.DEEP, 8.0, null),
                        treated("Kettle Block", 2, Cleaning.QUICK, null, 50.0),
                        treated("Kettle Block", 3, Cleaning.QUICK, 5.0, 20.0),
                        treated("Kettle Block", 4, Cleaning.DEEP, 6.0, 30.0))
                .ledger();
        assertEquals(
                new Dose((8 + 5 + 5 + 6) / 4.0, (20 + 50 + 20 + 30) / 4.0, Cleaning.DEEP, 4), Dose.of(ledger, KETTLE));
    }

    @Test
    void theStockIsWhatWasBoughtLessWhatTreatmentsTookSince() {
        Ledger ledger = ledger().add(
                        treated("Kettle Block", 0, Cleaning.DEEP, 8.0, null),
                        new Event.Bought("Kettle Block", day(1), 2),
                        treated("Kettle Block", 2, Cleaning.QUICK, null, null),
                        new Event.Bought("Kettle Block", day(3), 1),
                        treated("Kettle Block", 3, Cleaning.QUICK, 6.0, null))
                .ledger();
        assertEquals(new Stock(3 * 40 - 5 - 6, 120, 2, 0), Stock.of(ledger, KETTLE));
    }

    @Test
    void whatIsNotKnownIsNotGuessed() {
        Ledger none = ledger().ledger();
        assertEquals(Double.NaN, Stock.of(none, KETTLE).millilitres());
        Ledger silent = ledger().add(
                        new Event.Bought("Marsh Oil", day(1), 1), treated("Marsh Oil", 2, Cleaning.QUICK, null, null))
                .ledger();
        assertEquals(Double.NaN, Stock.of(silent, BARE).millilitres());
        Ledger half = ledger().add(
                        new Event.Bought("Marsh Oil", day(1), 1),
                        treated("Marsh Oil", 2, Cleaning.QUICK, null, null),
                        treated("Marsh Oil", 3, Cleaning.QUICK, 3.0, null))
                .ledger();
        assertEquals(new Stock(94, 100, 2, 1), Stock.of(half, BARE));
    }
}
