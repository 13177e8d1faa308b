package chainage.store;

import java.nio.charset.StandardCharsets;
import java.sql.Connection;
import java.sql.SQLException;
import java.util.zip.CRC32C;
import org.jspecify.annotations.Nullable;
import org.sqlite.Function;

/**
 * The sum that a row carries of its own content: CRC-32C (RFC 3720, appendix B.4) over its values in their order, each
 * with its kind and length, so that a bit which turns on the disk shows. Not against a hand that means it.
 *
 * <p>In statements it is {@code row_sum(value, ...)}.
 */
final class RowSum {
    private final CRC32C crc = new CRC32C();
    private final byte[] head = new byte[9];

    RowSum nothing() {
        return head(0, 0);
    }

    /** Whole or not: columns of either kind hand on a number as they hold it, and both shall give one sum. */
    RowSum number(double value) {
        return head(1, Double.doubleToLongBits(value + 0.0)); // no zero below zero, which a column does not keep
    }

    RowSum text(@Nullable String value) {
        return value == null ? nothing() : bytes(2, value.getBytes(StandardCharsets.UTF_8));
    }

    RowSum bytes(byte @Nullable [] value) {
        return value == null ? nothing() : bytes(3, value);
    }

    private RowSum bytes(int kind, byte[] value) {
        head(kind, value.length);
        crc.update(value, 0, value.length);
        return this;
    }

    private RowSum head(int kind, long value) {
        head[0] = (byte) kind;
        for (int i = 1; i < head.length; i++) {
            head[i] = (byte) (value >>> (8 * (i - 1)));
        }
        crc.update(head, 0, head.length);
        return this;
    }

    /** 32 bits. */
    long value() {
        return crc.getValue();
    }

    /** Lets a connection's statements and triggers use it. */
    static void register(Connection connection) throws SQLException {
        Function.create(connection, "row_sum", new InStatements(), -1, Function.FLAG_DETERMINISTIC);
    }

    private static final class InStatements extends Function {
        @Override
        protected void xFunc() throws SQLException {
            RowSum sum = new RowSum();
            for (int i = 0; i < args(); i++) {
                switch (value_type(i)) {
                    case 1, 2 -> sum.number(value_double(i));
                    case 3 -> sum.text(value_text(i));
                    case 4 -> sum.bytes(value_blob(i));
                    default -> sum.nothing();
                }
            }
            result(sum.value());
        }
    }
}
