package chainage.recall;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.DataInput;
import java.io.DataInputStream;
import java.io.DataOutput;
import java.io.DataOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.time.DateTimeException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * Figures as bytes: field after field in one order, without names; of several things how many there are, then one after the
 * other. The same figures give the same bytes.
 */
final class ByteForm {
    private ByteForm() {}

    interface Put<T> {
        void put(DataOutput out, T value) throws IOException;
    }

    interface Take<T> {
        T take(DataInput in) throws IOException;
    }

    static <T> byte[] write(T value, Put<T> put) {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        try (DataOutputStream out = new DataOutputStream(bytes)) {
            put.put(out, value);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return bytes.toByteArray();
    }

    /**
     * Reads what was written.
     *
     * @throws IOException when it is something else
     */
    static <T> T read(byte[] bytes, Take<T> take) throws IOException {
        try (DataInputStream in = new DataInputStream(new ByteArrayInputStream(bytes))) {
            T value = take.take(in);
            if (in.read() >= 0) {
                throw new IOException("more than was written");
            }
            return value;
        } catch (IllegalArgumentException | DateTimeException | IndexOutOfBoundsException e) {
            throw new IOException("something else was written", e);
        }
    }

    static void instant(DataOutput out, Instant at) throws IOException {
        out.writeLong(at.getEpochSecond());
        out.writeInt(at.getNano());
    }

    static Instant instant(DataInput in) throws IOException {
        return Instant.ofEpochSecond(in.readLong(), in.readInt());
    }

    static <T> void optional(DataOutput out, @Nullable T value, Put<T> put) throws IOException {
        out.writeBoolean(value != null);
        if (value != null) {
            put.put(out, value);
        }
    }

    static <T> @Nullable T optional(DataInput in, Take<T> take) throws IOException {
        return in.readBoolean() ? take.take(in) : null;
    }

    static <T> void list(DataOutput out, List<T> all, Put<T> put) throws IOException {
        out.writeInt(all.size());
        for (T one : all) {
            put.put(out, one);
        }
    }

    static <T> List<T> list(DataInput in, Take<T> take) throws IOException {
        int size = in.readInt();
        List<T> all = new ArrayList<>();
        for (int i = 0; i < size; i++) {
            all.add(take.take(in));
        }
        return all;
    }

    static <K, V> void map(DataOutput out, Map<K, V> all, Put<K> key, Put<V> value) throws IOException {
        out.writeInt(all.size());
        for (Map.Entry<K, V> e : all.entrySet()) {
            key.put(out, e.getKey());
            value.put(out, e.getValue());
        }
    }

    static <K, V> Map<K, V> map(DataInput in, Take<K> key, Take<V> value) throws IOException {
        int size = in.readInt();
        Map<K, V> all = new LinkedHashMap<>();
        for (int i = 0; i < size; i++) {
            K k = key.take(in);
            all.put(k, value.take(in));
        }
        return all;
    }
}
