package chainage.store.row;

import java.nio.charset.StandardCharsets;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** A row that is read value by value, in the order of its sum, and then held against it. */
public final class KeptRow {
    private final ResultSet row;
    private final RowSum sum = new RowSum();

    public KeptRow(ResultSet row) {
        this.row = row;
    }

    /**
     * Holds a row against its sum, by the names of its columns in the order of the sum.
     *
     * @throws DamagedRowException when it is not what was written
     */
    public static void verify(ResultSet row, List<String> columns) throws SQLException, DamagedRowException {
        KeptRow kept = new KeptRow(row);
        for (String column : columns) {
            Object value = row.getObject(column);
            if (value instanceof Number n) {
                kept.sum.number(n.doubleValue());
            } else if (value instanceof byte[] bytes) {
                kept.sum.bytes(bytes);
            } else {
                kept.sum.text((String) value);
            }
        }
        kept.verify();
    }

    public long whole(String column) throws SQLException {
        long value = row.getLong(column);
        sum.number((double) value);
        return value;
    }

    @Nullable
    public Long optionalWhole(String column) throws SQLException {
        long value = row.getLong(column);
        if (row.wasNull()) {
            sum.nothing();
            return null;
        }
        sum.number((double) value);
        return value;
    }

    /** NaN for null. */
    double real(String column) throws SQLException {
        double value = row.getDouble(column);
        if (row.wasNull()) {
            sum.nothing();
            return Double.NaN;
        }
        sum.number(value);
        return value;
    }

    public String text(String column) throws SQLException {
        String value = optionalText(column);
        return value == null ? "" : value;
    }

    @Nullable
    String optionalText(String column) throws SQLException {
        // As bytes, which are summed as they are and made a text once.
        byte[] value = row.getBytes(column);
        sum.utf8(value);
        return value == null ? null : new String(value, StandardCharsets.UTF_8);
    }

    public byte @Nullable [] optionalBytes(String column) throws SQLException {
        byte[] value = row.getBytes(column);
        sum.bytes(value);
        return value;
    }

    public byte[] bytes(String column) throws SQLException {
        byte[] value = optionalBytes(column);
        return value == null ? new byte[0] : value;
    }

    /**
     * To be asked when all values are read, and before anything is made of them.
     *
     * @throws DamagedRowException when they are not what was written
     */
    public void verify() throws SQLException, DamagedRowException {
        if (row.getLong("sum") != sum.value()) {
            throw new DamagedRowException("was changed on the disk", null);
        }
    }
}
