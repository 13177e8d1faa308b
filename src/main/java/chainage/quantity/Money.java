package chainage.quantity;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Currency;

/**
 * An amount of money, exact.
 *
 * @param minor amount in the currency's smallest unit, such as cents
 * @param currency ISO 4217 code
 */
public record Money(long minor, String currency) {
    public Money {
        digits(currency);
    }

    /**
     * Decimals that an amount has.
     *
     * @throws IllegalArgumentException when the code is no currency that amounts can be in
     */
    private static int digits(String currency) {
        int digits = Currency.getInstance(currency).getDefaultFractionDigits();
        if (digits < 0) {
            throw new IllegalArgumentException(currency + " is no money");
        }
        return digits;
    }

    /** Nothing, in a currency. */
    public static Money zero(String currency) {
        return new Money(0, currency);
    }

    /**
     * The sum of two amounts.
     *
     * @throws IllegalArgumentException when their currencies differ
     * @throws ArithmeticException when it is more than can be held
     */
    public Money plus(Money other) {
        if (!currency.equals(other.currency)) {
            throw new IllegalArgumentException(this + " and " + other + " are of two currencies");
        }
        return new Money(Math.addExact(minor, other.minor), currency);
    }

    /**
     * The amount so many times, worked out exactly and rounded once, to the smallest unit, halves to the even one.
     *
     * @throws ArithmeticException when it is more than can be held
     */
    public Money times(BigDecimal factor) {
        return new Money(
                BigDecimal.valueOf(minor)
                        .multiply(factor)
                        .setScale(0, RoundingMode.HALF_EVEN)
                        .longValueExact(),
                currency);
    }

    /**
     * Reads an amount such as {@code "19.90 EUR"} or {@code "19.90EUR"}.
     *
     * @throws IllegalArgumentException when there is no ISO 4217 code, or more decimals than the currency has
     */
    public static Money parse(String text) {
        String t = text.strip();
        if (t.length() < 4) {
            throw new IllegalArgumentException("no amount with a currency");
        }
        String currency = t.substring(t.length() - 3);
        BigDecimal amount = new BigDecimal(t.substring(0, t.length() - 3).strip());
        return new Money(amount.movePointRight(digits(currency)).longValueExact(), currency);
    }

    /** For example {@code 19.90 EUR}. */
    @Override
    public String toString() {
        return amount() + " " + currency;
    }

    /** The amount alone, for example {@code 19.90}. */
    public String amount() {
        return BigDecimal.valueOf(minor, digits(currency)).toPlainString();
    }
}
