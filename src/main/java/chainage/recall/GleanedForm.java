package chainage.recall;

import chainage.analysis.Gleaned;
import chainage.evidence.Marks;
import chainage.inference.JointLevels;
import chainage.inference.JointWitness;
import chainage.inference.Score;
import chainage.inference.Witness;
import chainage.ledger.Method;
import chainage.meter.OtherLoss;
import chainage.meter.RiderLoss;
import chainage.treatment.Level;
import chainage.treatment.OtherRiders;
import chainage.treatment.Own;
import chainage.treatment.RiderLives;
import chainage.treatment.Taught;
import chainage.wear.OtherWear;
import chainage.wear.Paces;
import chainage.wear.RiderWear;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;
import java.util.Arrays;
import java.util.List;
import java.util.TreeMap;
import java.util.function.IntToDoubleFunction;

/** What others' chains have shown, in few figures, as bytes. */
final class GleanedForm {
    private static final List<Method> METHODS = List.of(Method.values());

    private GleanedForm() {}

    static void put(DataOutput out, Gleaned gleaned) throws IOException {
        ByteForm.list(out, gleaned.riders(), (o, r) -> {
            ByteForm.list(o, r.marks().each(), DataOutput::writeLong);
            lives(o, r.lives());
            wear(o, r.wear());
            loss(o, r.loss());
        });
        ByteForm.list(out, gleaned.own(), DataOutput::writeInt);
        taught(out, gleaned.weighed().taught());
        int weighed = gleaned.weighed().count();
        weights(out, weighed, gleaned.weighed()::weight);
        paces(out, gleaned.wear().taught());
        weights(out, weighed, gleaned.wear()::weight);
        ByteForm.map(
                out,
                gleaned.loss().kinds(),
                GleanedForm::method,
                (o, names) -> ByteForm.list(o, names, DataOutput::writeUTF));
        told(out, gleaned.loss().told());
        weights(out, weighed, gleaned.loss()::weight);
    }

    private static void weights(DataOutput out, int riders, IntToDoubleFunction weight) throws IOException {
        out.writeInt(riders);
        for (int r = 0; r < riders; r++) {
            out.writeDouble(weight.applyAsDouble(r));
        }
    }

    static Gleaned take(DataInput in) throws IOException {
        List<Gleaned.Rider> riders = ByteForm.list(
                in,
                i -> new Gleaned.Rider(Marks.of(ByteForm.list(i, DataInput::readLong)), lives(i), wear(i), loss(i)));
        List<Integer> own = ByteForm.list(in, DataInput::readInt);
        List<Gleaned.Rider> counted = Gleaned.but(riders, own);
        Taught taught = taught(in);
        OtherRiders weighed = OtherRiders.weighed(
                counted.stream().map(Gleaned.Rider::lives).toList(), taught, ByteForm.list(in, DataInput::readDouble));
        Paces paces = paces(in);
        OtherWear wear = new OtherWear(
                counted.stream().map(Gleaned.Rider::wear).toList(), paces, ByteForm.list(in, DataInput::readDouble));
        OtherLoss loss = new OtherLoss(
                counted.stream().map(Gleaned.Rider::loss).toList(),
                ByteForm.map(in, GleanedForm::method, i -> ByteForm.list(i, DataInput::readUTF)),
                joint(in),
                ByteForm.list(in, DataInput::readDouble));
        return new Gleaned(riders, own, weighed, wear, loss);
    }

    private static void loss(DataOutput out, RiderLoss loss) throws IOException {
        ByteForm.list(out, loss.products(), (o, p) -> {
            method(o, p.method());
            o.writeUTF(p.name());
            o.writeInt(p.rides());
        });
        vector(out, loss.said().pull());
        matrix(out, loss.said().precision());
    }

    private static RiderLoss loss(DataInput in) throws IOException {
        return new RiderLoss(
                ByteForm.list(in, i -> new RiderLoss.Product(method(i), i.readUTF(), i.readInt())),
                new JointWitness(vector(in), matrix(in)));
    }

    private static void told(DataOutput out, JointLevels.Told told) throws IOException {
        vector(out, told.variances());
        vector(out, told.means());
        matrix(out, told.covariance());
    }

    private static JointLevels.Told joint(DataInput in) throws IOException {
        return new JointLevels.Told(vector(in), vector(in), matrix(in));
    }

    private static void vector(DataOutput out, double[] vector) throws IOException {
        ByteForm.list(out, Arrays.stream(vector).boxed().toList(), DataOutput::writeDouble);
    }

    private static double[] vector(DataInput in) throws IOException {
        return ByteForm.list(in, DataInput::readDouble).stream()
                .mapToDouble(Double::doubleValue)
                .toArray();
    }

    private static void matrix(DataOutput out, double[][] matrix) throws IOException {
        ByteForm.list(out, List.of(matrix), GleanedForm::vector);
    }

    private static double[][] matrix(DataInput in) throws IOException {
        return ByteForm.list(in, GleanedForm::vector).toArray(double[][]::new);
    }

    private static void wear(DataOutput out, RiderWear wear) throws IOException {
        told(out, wear.wet());
        told(out, wear.grit());
        ByteForm.list(out, wear.products(), (o, p) -> {
            method(o, p.method());
            o.writeUTF(p.name());
            told(o, p.pace());
        });
        out.writeInt(wear.readings());
    }

    private static RiderWear wear(DataInput in) throws IOException {
        return new RiderWear(
                told(in),
                told(in),
                ByteForm.list(in, i -> new RiderWear.Product(method(i), i.readUTF(), told(i))),
                in.readInt());
    }

    private static void paces(DataOutput out, Paces paces) throws IOException {
        out.writeDouble(paces.rider());
        score(out, paces.wet());
        score(out, paces.grit());
        ByteForm.map(out, new TreeMap<>(paces.methods()), GleanedForm::method, (o, levels) -> {
            pace(o, levels.unseen());
            ByteForm.map(o, new TreeMap<>(levels.products()), DataOutput::writeUTF, GleanedForm::pace);
        });
    }

    private static Paces paces(DataInput in) throws IOException {
        return new Paces(
                in.readDouble(),
                score(in),
                score(in),
                ByteForm.map(
                        in,
                        GleanedForm::method,
                        i -> new Paces.Levels(pace(i), ByteForm.map(i, DataInput::readUTF, GleanedForm::pace))));
    }

    private static void pace(DataOutput out, Paces.Level level) throws IOException {
        out.writeDouble(level.mean());
        out.writeDouble(level.loading());
        out.writeDouble(level.own());
        out.writeDouble(level.table());
    }

    private static Paces.Level pace(DataInput in) throws IOException {
        return new Paces.Level(in.readDouble(), in.readDouble(), in.readDouble(), in.readDouble());
    }

    private static void score(DataOutput out, Score score) throws IOException {
        out.writeDouble(score.mean());
        out.writeDouble(score.sd());
    }

    private static Score score(DataInput in) throws IOException {
        return new Score(in.readDouble(), in.readDouble());
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
        ByteForm.list(out, taught.scores(), GleanedForm::score);
        ByteForm.map(out, new TreeMap<>(taught.methods()), GleanedForm::method, (o, levels) -> {
            level(o, levels.unseen());
            ByteForm.map(o, new TreeMap<>(levels.products()), DataOutput::writeUTF, GleanedForm::level);
        });
    }

    private static Taught taught(DataInput in) throws IOException {
        return new Taught(
                ByteForm.list(in, GleanedForm::score),
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

    private static void told(DataOutput out, Witness told) throws IOException {
        out.writeDouble(told.mean());
        out.writeDouble(told.precision());
    }

    private static Witness told(DataInput in) throws IOException {
        return new Witness(in.readDouble(), in.readDouble());
    }

    private static void method(DataOutput out, Method method) throws IOException {
        out.writeByte(METHODS.indexOf(method));
    }

    private static Method method(DataInput in) throws IOException {
        return METHODS.get(in.readByte());
    }
}
