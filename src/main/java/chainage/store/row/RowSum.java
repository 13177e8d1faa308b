package chainage.store.row;

import java.nio.charset.StandardCharsets;
import java.sql.Connection;
import java.sql.SQLException;
import java.util.zip.CRC32;
import org.jspecify.annotations.Nullable;
import org.sqlite.Function;

/**
 * The sum that a row carries of its own content: CRC-32 (RFC 1952, 8) over its values in their order, each
 * with its kind and length, so that a bit which turns on the disk shows. Not against a hand that means it. Not CRC-32C, which the first compiler, and so
 * a quick answer, has no instruction for.
 *
 * <p>In statements it is {@code row_sum(value, ...)}.
 */
public final class RowSum {
    /** Room for the figures and short words of a row: one call for many. */
    private static final int ROOM = 512;

    private final CRC32 crc = new CRC32();
    private final byte[] waiting = new byte[ROOM];
    private int filled;

    RowSum nothing() {
        return head(0, 0);
    }

    /** Whole or not: columns of either kind hand on a number as they hold it, and both shall give one sum. */
    RowSum number(double value) {
        return head(1, Double.doubleToLongBits(value + 0.0)); // no zero below zero, which a column does not keep
    }

    RowSum text(@Nullable String value) {
        return utf8(value == null ? null : value.getBytes(StandardCharsets.UTF_8));
    }

    /** A text as its bytes. */
    RowSum utf8(byte @Nullable [] value) {
        return value == null ? nothing() : bytes(2, value);
    }

    RowSum bytes(byte @Nullable [] value) {
        return value == null ? nothing() : bytes(3, value);
    }

    private RowSum bytes(int kind, byte[] value) {
        head(kind, value.length);
        if (value.length > ROOM - filled) {
            flush();
        }
        if (value.length > ROOM) {
            crc.update(value, 0, value.length);
        } else {
            System.arraycopy(value, 0, waiting, filled, value.length);
            filled += value.length;
        }
        return this;
    }

    private RowSum head(int kind, long value) {
        if (1 + Long.BYTES > ROOM - filled) {
            flush();
        }
        waiting[filled++] = (byte) kind;
        for (int shift = 0; shift < Long.SIZE; shift += Byte.SIZE) {
            waiting[filled++] = (byte) (value >>> shift);
        }
        return this;
    }

    private void flush() {
        crc.update(waiting, 0, filled);
        filled = 0;
    }

    /** 32 bits. */
    long value() {
        flush();
        return crc.getValue();
    }

    /** Lets a connection's statements and triggers use it. */
    public static void register(Connection connection) throws SQLException {
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
