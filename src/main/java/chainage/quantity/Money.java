package chainage.quantity;

import java.math.BigDecimal;
import java.util.Currency;

/**
 * An amount of money, exact.
 *
 * @param minor amount in the currency's smallest unit, such as cents
 * @param currency ISO 4217 code
 */
public record Money(long minor, String currency) {
    public Money {
        Currency.getInstance(currency);
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
        Currency currency = Currency.getInstance(t.substring(t.length() - 3));
        BigDecimal amount = new BigDecimal(t.substring(0, t.length() - 3).strip());
        return new Money(
                amount.movePointRight(currency.getDefaultFractionDigits()).longValueExact(),
                currency.getCurrencyCode());
    }

    /** For example {@code 19.90 EUR}. */
    @Override
    public String toString() {
        int digits = Currency.getInstance(currency).getDefaultFractionDigits();
        return BigDecimal.valueOf(minor, digits).toPlainString() + " " + currency;
    }
}
