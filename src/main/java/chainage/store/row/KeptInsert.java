package chainage.store.row;

import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.sql.Types;
import org.jspecify.annotations.Nullable;

/** Binds a row's values one after the other, and behind them the sum of them all. */
public final class KeptInsert {
    private final PreparedStatement insert;
    private RowSum sum = new RowSum();
    private int bound;

    public KeptInsert(PreparedStatement insert) {
        this.insert = insert;
    }

    public KeptInsert whole(long value) throws SQLException {
        insert.setLong(++bound, value);
        sum.number((double) value);
        return this;
    }

    public KeptInsert whole(@Nullable Long value) throws SQLException {
        return value == null ? nothing(Types.INTEGER) : whole(value.longValue());
    }

    /** NaN is kept as null. */
    public KeptInsert real(double value) throws SQLException {
        if (Double.isNaN(value)) {
            return nothing(Types.REAL);
        }
        insert.setDouble(++bound, value);
        sum.number(value);
        return this;
    }

    public KeptInsert text(@Nullable String value) throws SQLException {
        insert.setString(++bound, value);
        sum.text(value);
        return this;
    }

    public KeptInsert bytes(byte @Nullable [] value) throws SQLException {
        insert.setBytes(++bound, value);
        sum.bytes(value);
        return this;
    }

    /** A value that the statement asks for and the row does not keep. */
    public KeptInsert aside(@Nullable String value) throws SQLException {
        insert.setString(++bound, value);
        return this;
    }

    private KeptInsert nothing(int type) throws SQLException {
        insert.setNull(++bound, type);
        sum.nothing();
        return this;
    }

    /**
     * Writes the row, and is ready for the next.
     *
     * @return how many rows that changed
     */
    public int execute() throws SQLException {
        insert.setLong(++bound, sum.value());
        bound = 0;
        sum = new RowSum();
        return insert.executeUpdate();
    }
}
