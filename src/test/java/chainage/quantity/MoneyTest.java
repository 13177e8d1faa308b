package chainage.quantity;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertThrowsExactly;

import java.math.BigDecimal;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class MoneyTest {
    /** Decimals by ISO 4217: two, none, three. */
    @ParameterizedTest
    @CsvSource({"27.50 EUR, 2750", "27.5EUR, 2750", "4000 JPY, 4000", "1.234 KWD, 1234", "0 EUR, 0", "-3 EUR, -300"})
    void amountsAreHeldInTheSmallestUnit(String text, long minor) {
        assertEquals(minor, Money.parse(text).minor());
    }

    /** More decimals than the currency has, by ISO 4217; codes that are none, or no currency's; no figure. */
    @ParameterizedTest
    @CsvSource({
        "12.345 EUR, java.lang.ArithmeticException",
        "0.5 JPY, java.lang.ArithmeticException",
        "5 QQQ, java.lang.IllegalArgumentException",
        "5 XXX, java.lang.IllegalArgumentException",
        "EUR, java.lang.IllegalArgumentException",
        "5, java.lang.IllegalArgumentException",
        "five EUR, java.lang.NumberFormatException",
    })
    void whatIsNoAmountIsRefused(String text, Class<? extends Throwable> refusal) {
        assertThrowsExactly(refusal, () -> Money.parse(text));
    }

    @ParameterizedTest
    @CsvSource({
        "1000, 0.0125, 12",
        "1000, 0.0135, 14",
        "1, 0.5, 0",
        "3, 0.5, 2",
        "9007199254740993, 1, 9007199254740993",
        "10, 1e3, 10000"
    })
    void aPartIsRoundedOnceHalvesToTheEvenUnit(long minor, BigDecimal factor, long part) {
        assertEquals(part, new Money(minor, "EUR").times(factor).minor());
    }

    @Test
    void sumsStayWithinOneCurrencyAndWithinRange() {
        Money most = new Money(Long.MAX_VALUE, "EUR");
        assertEquals(
                "0.30 EUR",
                Money.parse("0.10 EUR").plus(Money.parse("0.20 EUR")).toString());
        assertThrows(IllegalArgumentException.class, () -> most.plus(Money.zero("JPY")));
        assertThrows(ArithmeticException.class, () -> most.plus(new Money(1, "EUR")));
        assertThrows(ArithmeticException.class, () -> most.times(BigDecimal.TEN));
    }
}
