package chainage.recall;

import chainage.analysis.Gleaned;
import chainage.evidence.Marks;
import chainage.ledger.Method;
import chainage.treatment.Level;
import chainage.treatment.OtherRiders;
import chainage.treatment.Own;
import chainage.treatment.RiderLives;
import chainage.treatment.Score;
import chainage.treatment.Taught;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;
import java.util.List;
import java.util.TreeMap;

/** What others' chains have shown, in few figures, as bytes. */
final class GleanedForm {
    private static final List<Method> METHODS = List.of(Method.values());

    private GleanedForm() {}

    static void put(DataOutput out, Gleaned gleaned) throws IOException {
        ByteForm.list(out, gleaned.riders(), (o, r) -> {
            ByteForm.list(o, r.marks().each(), DataOutput::writeLong);
            lives(o, r.lives());
        });
        ByteForm.list(out, gleaned.own(), DataOutput::writeInt);
        taught(out, gleaned.weighed().taught());
        int weighed = gleaned.weighed().count();
        out.writeInt(weighed);
        for (int r = 0; r < weighed; r++) {
            out.writeDouble(gleaned.weighed().weight(r));
        }
    }

    static Gleaned take(DataInput in) throws IOException {
        List<Gleaned.Rider> riders =
                ByteForm.list(in, i -> new Gleaned.Rider(Marks.of(ByteForm.list(i, DataInput::readLong)), lives(i)));
        List<Integer> own = ByteForm.list(in, DataInput::readInt);
        Taught taught = taught(in);
        List<Double> weights = ByteForm.list(in, DataInput::readDouble);
        OtherRiders weighed = OtherRiders.weighed(Gleaned.but(riders, own), taught, weights);
        return new Gleaned(riders, own, weighed);
    }

    private static void lives(DataOutput out, RiderLives lives) throws IOException {
        ByteForm.list(out, lives.scores(), GleanedForm::told);
        ByteForm.list(out, lives.products(), (o, p) -> {
            method(o, p.method());
            o.writeUTF(p.name());
            told(o, p.level());
            o.writeInt(p.lives());
        });
    }

    private static RiderLives lives(DataInput in) throws IOException {
        return new RiderLives(
                ByteForm.list(in, GleanedForm::told),
                ByteForm.list(in, i -> new RiderLives.Product(method(i), i.readUTF(), told(i), i.readInt())));
    }

    private static void taught(DataOutput out, Taught taught) throws IOException {
        ByteForm.list(out, taught.scores(), (o, s) -> {
            o.writeDouble(s.mean());
            o.writeDouble(s.sd());
        });
        ByteForm.map(out, new TreeMap<>(taught.methods()), GleanedForm::method, (o, levels) -> {
            level(o, levels.unseen());
            ByteForm.map(o, new TreeMap<>(levels.products()), DataOutput::writeUTF, GleanedForm::level);
        });
    }

    private static Taught taught(DataInput in) throws IOException {
        return new Taught(
                ByteForm.list(in, i -> new Score(i.readDouble(), i.readDouble())),
                ByteForm.map(
                        in,
                        GleanedForm::method,
                        i -> new Taught.Levels(level(i), ByteForm.map(i, DataInput::readUTF, GleanedForm::level))));
    }

    private static void level(DataOutput out, Level level) throws IOException {
        out.writeDouble(level.mean());
        out.writeDouble(level.loading());
        out.writeDouble(level.own().near());
        out.writeDouble(level.own().far());
        out.writeDouble(level.own().odd());
        out.writeDouble(level.sd());
        out.writeDouble(level.table());
    }

    private static Level level(DataInput in) throws IOException {
        return new Level(
                in.readDouble(),
                in.readDouble(),
                new Own(in.readDouble(), in.readDouble(), in.readDouble()),
                in.readDouble(),
                in.readDouble());
    }

    private static void told(DataOutput out, RiderLives.Told told) throws IOException {
        out.writeDouble(told.mean());
        out.writeDouble(told.precision());
    }

    private static RiderLives.Told told(DataInput in) throws IOException {
        return new RiderLives.Told(in.readDouble(), in.readDouble());
    }

    private static void method(DataOutput out, Method method) throws IOException {
        out.writeByte(METHODS.indexOf(method));
    }

    private static Method method(DataInput in) throws IOException {
        return METHODS.get(in.readByte());
    }
}
