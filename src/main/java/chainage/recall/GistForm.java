package chainage.recall;

import chainage.analysis.Bare;
import chainage.analysis.Gist;
import chainage.exposure.Leaning;
import chainage.ledger.Grit;
import chainage.quantity.Estimate;
import chainage.quantity.LocalClock;
import chainage.standing.Habits;
import chainage.treatment.TreatmentStanding;
import chainage.wear.Expected;
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
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** A gist as bytes: field after field in one order, without names. The same gist gives the same bytes. */
final class GistForm {
    private static final List<Grit> GRITS = List.of(Grit.values());

    private GistForm() {}

    private interface Put<T> {
        void put(DataOutput out, T value) throws IOException;
    }

    private interface Take<T> {
        T take(DataInput in) throws IOException;
    }

    static byte[] write(Gist gist) {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        try (DataOutputStream out = new DataOutputStream(bytes)) {
            instant(out, gist.from());
            optional(out, gist.until(), GistForm::instant);
            out.writeDouble(gist.leaning().wet());
            out.writeDouble(gist.leaning().grit());
            list(out, gist.chains(), GistForm::chain);
            habits(out, gist.habits());
            list(out, gist.bare(), GistForm::bare);
            out.writeDouble(gist.bareMetres());
            map(out, gist.last(), DataOutput::writeUTF, GistForm::instant);
            map(out, gist.told(), GistForm::instant, (o, told) -> {
                o.writeInt(told.offset().getTotalSeconds());
                optional(o, told.as(), DataOutput::writeUTF);
            });
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
    static Gist read(byte[] bytes) throws IOException {
        try (DataInputStream in = new DataInputStream(new ByteArrayInputStream(bytes))) {
            Gist gist = new Gist(
                    instant(in),
                    optional(in, GistForm::instant),
                    new Leaning(in.readDouble(), in.readDouble()),
                    list(in, GistForm::chain),
                    habits(in),
                    list(in, GistForm::bare),
                    in.readDouble(),
                    map(in, DataInput::readUTF, GistForm::instant),
                    map(
                            in,
                            GistForm::instant,
                            i -> new LocalClock.Told(
                                    ZoneOffset.ofTotalSeconds(i.readInt()), optional(i, DataInput::readUTF))));
            if (in.read() >= 0) {
                throw new IOException("more than a gist");
            }
            return gist;
        } catch (IllegalArgumentException | DateTimeException | IndexOutOfBoundsException e) {
            throw new IOException("no gist", e);
        }
    }

    private static void chain(DataOutput out, Gist.Chain c) throws IOException {
        out.writeUTF(c.name());
        out.writeDouble(c.riddenMetres());
        out.writeDouble(c.wearMetres());
        optional(out, c.lastBike(), DataOutput::writeUTF);
        optional(out, c.life(), GistForm::estimate);
        out.writeDouble(c.limitMetres());
        out.writeDouble(c.exposureMetres());
        optional(out, c.basis(), (o, b) -> {
            o.writeInt(b.lives());
            o.writeDouble(b.tableWeight());
            o.writeDouble(b.othersWeight());
        });
        estimate(out, c.elongationPercent());
        estimate(out, c.ridableMetres());
        out.writeDouble(c.over());
        expected(out, c.expected());
        out.writeDouble(c.percentPerMetre());
        list(out, c.readings(), GistForm::expected);
        out.writeInt(c.othersRead());
        list(out, c.doubts(), (o, d) -> {
            o.writeInt(d.reading());
            estimate(o, d.expected());
            o.writeDouble(d.chance());
        });
    }

    private static Gist.Chain chain(DataInput in) throws IOException {
        return new Gist.Chain(
                in.readUTF(),
                in.readDouble(),
                in.readDouble(),
                optional(in, DataInput::readUTF),
                optional(in, GistForm::estimate),
                in.readDouble(),
                in.readDouble(),
                optional(in, i -> new TreatmentStanding.Basis(i.readInt(), i.readDouble(), i.readDouble())),
                estimate(in),
                estimate(in),
                in.readDouble(),
                expected(in),
                in.readDouble(),
                list(in, GistForm::expected),
                in.readInt(),
                list(in, i -> new Gist.Doubt(i.readInt(), estimate(i), i.readDouble())));
    }

    /** Chains by their place in a list of the names: there are few of them, and many rides. */
    private static void habits(DataOutput out, Habits habits) throws IOException {
        Map<List<String>, Integer> places = new LinkedHashMap<>();
        habits.bikes().values().forEach(h -> h.rides().forEach(r -> places.putIfAbsent(r.chains(), places.size())));
        out.writeLong(habits.seed());
        list(out, List.copyOf(places.keySet()), (o, chains) -> list(o, chains, DataOutput::writeUTF));
        map(out, habits.bikes(), DataOutput::writeUTF, (o, habit) -> {
            instant(o, habit.first());
            list(o, habit.rides(), (to, r) -> {
                instant(to, r.start());
                to.writeDouble(r.metres());
                to.writeDouble(r.wet());
                to.writeDouble(r.damp());
                to.writeByte(GRITS.indexOf(r.grit()));
                to.writeDouble(r.wearMetres());
                to.writeInt(places.getOrDefault(r.chains(), 0));
            });
        });
    }

    private static Habits habits(DataInput in) throws IOException {
        long seed = in.readLong();
        List<List<String>> chains = list(in, i -> list(i, DataInput::readUTF));
        return new Habits(
                seed,
                map(
                        in,
                        DataInput::readUTF,
                        i -> new Habits.Habit(
                                instant(i),
                                list(
                                        i,
                                        from -> new Habits.Ridden(
                                                instant(from),
                                                from.readDouble(),
                                                from.readDouble(),
                                                from.readDouble(),
                                                GRITS.get(from.readByte()),
                                                from.readDouble(),
                                                chains.get(from.readInt()))))));
    }

    private static void bare(DataOutput out, Bare b) throws IOException {
        optional(out, b.bike(), DataOutput::writeUTF);
        out.writeInt(b.rides());
        out.writeDouble(b.metres());
        instant(out, b.first());
        out.writeUTF(b.id());
    }

    private static Bare bare(DataInput in) throws IOException {
        return new Bare(optional(in, DataInput::readUTF), in.readInt(), in.readDouble(), instant(in), in.readUTF());
    }

    private static void estimate(DataOutput out, Estimate e) throws IOException {
        out.writeDouble(e.low());
        out.writeDouble(e.likely());
        out.writeDouble(e.high());
    }

    private static Estimate estimate(DataInput in) throws IOException {
        return new Estimate(in.readDouble(), in.readDouble(), in.readDouble());
    }

    private static void expected(DataOutput out, Expected e) throws IOException {
        out.writeDouble(e.dry());
        out.writeDouble(e.wet());
        out.writeDouble(e.grit());
        out.writeDouble(e.both());
    }

    private static Expected expected(DataInput in) throws IOException {
        return new Expected(in.readDouble(), in.readDouble(), in.readDouble(), in.readDouble());
    }

    private static void instant(DataOutput out, Instant at) throws IOException {
        out.writeLong(at.getEpochSecond());
        out.writeInt(at.getNano());
    }

    private static Instant instant(DataInput in) throws IOException {
        return Instant.ofEpochSecond(in.readLong(), in.readInt());
    }

    private static <T> void optional(DataOutput out, @Nullable T value, Put<T> put) throws IOException {
        out.writeBoolean(value != null);
        if (value != null) {
            put.put(out, value);
        }
    }

    private static <T> @Nullable T optional(DataInput in, Take<T> take) throws IOException {
        return in.readBoolean() ? take.take(in) : null;
    }

    private static <T> void list(DataOutput out, List<T> all, Put<T> put) throws IOException {
        out.writeInt(all.size());
        for (T one : all) {
            put.put(out, one);
        }
    }

    private static <T> List<T> list(DataInput in, Take<T> take) throws IOException {
        int size = in.readInt();
        List<T> all = new ArrayList<>();
        for (int i = 0; i < size; i++) {
            all.add(take.take(in));
        }
        return all;
    }

    private static <K, V> void map(DataOutput out, Map<K, V> all, Put<K> key, Put<V> value) throws IOException {
        out.writeInt(all.size());
        for (Map.Entry<K, V> e : all.entrySet()) {
            key.put(out, e.getKey());
            value.put(out, e.getValue());
        }
    }

    private static <K, V> Map<K, V> map(DataInput in, Take<K> key, Take<V> value) throws IOException {
        int size = in.readInt();
        Map<K, V> all = new LinkedHashMap<>();
        for (int i = 0; i < size; i++) {
            K k = key.take(in);
            all.put(k, value.take(in));
        }
        return all;
    }
}
