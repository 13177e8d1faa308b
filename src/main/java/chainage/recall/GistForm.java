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
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;
import java.time.ZoneOffset;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** A gist as bytes. */
final class GistForm {
    private static final List<Grit> GRITS = List.of(Grit.values());

    private GistForm() {}

    static void put(DataOutput out, Gist gist) throws IOException {
        ByteForm.instant(out, gist.from());
        ByteForm.optional(out, gist.until(), ByteForm::instant);
        out.writeDouble(gist.leaning().wet());
        out.writeDouble(gist.leaning().grit());
        ByteForm.list(out, gist.chains(), GistForm::chain);
        habits(out, gist.habits());
        ByteForm.list(out, gist.bare(), GistForm::bare);
        out.writeDouble(gist.bareMetres());
        ByteForm.map(out, gist.last(), DataOutput::writeUTF, ByteForm::instant);
        ByteForm.map(out, gist.told(), ByteForm::instant, (o, told) -> {
            o.writeInt(told.offset().getTotalSeconds());
            ByteForm.optional(o, told.as(), DataOutput::writeUTF);
        });
    }

    static Gist take(DataInput in) throws IOException {
        return new Gist(
                ByteForm.instant(in),
                ByteForm.optional(in, ByteForm::instant),
                new Leaning(in.readDouble(), in.readDouble()),
                ByteForm.list(in, GistForm::chain),
                habits(in),
                ByteForm.list(in, GistForm::bare),
                in.readDouble(),
                ByteForm.map(in, DataInput::readUTF, ByteForm::instant),
                ByteForm.map(
                        in,
                        ByteForm::instant,
                        i -> new LocalClock.Told(
                                ZoneOffset.ofTotalSeconds(i.readInt()), ByteForm.optional(i, DataInput::readUTF))));
    }

    private static void chain(DataOutput out, Gist.Chain c) throws IOException {
        out.writeUTF(c.name());
        out.writeDouble(c.riddenMetres());
        out.writeDouble(c.wearMetres());
        ByteForm.optional(out, c.lastBike(), DataOutput::writeUTF);
        ByteForm.optional(out, c.life(), GistForm::estimate);
        out.writeDouble(c.limitMetres());
        out.writeDouble(c.treatedMetres());
        out.writeDouble(c.exposureMetres());
        ByteForm.optional(out, c.basis(), (o, b) -> {
            o.writeInt(b.lives());
            o.writeDouble(b.tableWeight());
            o.writeDouble(b.othersWeight());
        });
        estimate(out, c.elongationPercent());
        estimate(out, c.ridableMetres());
        out.writeDouble(c.over());
        expected(out, c.expected());
        out.writeDouble(c.percentPerMetre());
        ByteForm.list(out, c.readings(), GistForm::expected);
        out.writeInt(c.othersRead());
        out.writeDouble(c.othersWeight());
        ByteForm.list(out, c.doubts(), (o, d) -> {
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
                ByteForm.optional(in, DataInput::readUTF),
                ByteForm.optional(in, GistForm::estimate),
                in.readDouble(),
                in.readDouble(),
                in.readDouble(),
                ByteForm.optional(in, i -> new TreatmentStanding.Basis(i.readInt(), i.readDouble(), i.readDouble())),
                estimate(in),
                estimate(in),
                in.readDouble(),
                expected(in),
                in.readDouble(),
                ByteForm.list(in, GistForm::expected),
                in.readInt(),
                in.readDouble(),
                ByteForm.list(in, i -> new Gist.Doubt(i.readInt(), estimate(i), i.readDouble())));
    }

    /** Chains by their place in a list of the names: there are few of them, and many rides. */
    private static void habits(DataOutput out, Habits habits) throws IOException {
        Map<List<String>, Integer> places = new LinkedHashMap<>();
        habits.bikes().values().forEach(h -> h.rides().forEach(r -> places.putIfAbsent(r.chains(), places.size())));
        out.writeLong(habits.seed());
        ByteForm.list(out, List.copyOf(places.keySet()), (o, chains) -> ByteForm.list(o, chains, DataOutput::writeUTF));
        ByteForm.map(out, habits.bikes(), DataOutput::writeUTF, (o, habit) -> {
            ByteForm.instant(o, habit.first());
            ByteForm.list(o, habit.rides(), (to, r) -> {
                ByteForm.instant(to, r.start());
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
        List<List<String>> chains = ByteForm.list(in, i -> ByteForm.list(i, DataInput::readUTF));
        return new Habits(
                seed,
                ByteForm.map(
                        in,
                        DataInput::readUTF,
                        i -> new Habits.Habit(
                                ByteForm.instant(i),
                                ByteForm.list(
                                        i,
                                        from -> new Habits.Ridden(
                                                ByteForm.instant(from),
                                                from.readDouble(),
                                                from.readDouble(),
                                                from.readDouble(),
                                                GRITS.get(from.readByte()),
                                                from.readDouble(),
                                                chains.get(from.readInt()))))));
    }

    private static void bare(DataOutput out, Bare b) throws IOException {
        ByteForm.optional(out, b.bike(), DataOutput::writeUTF);
        out.writeInt(b.rides());
        out.writeDouble(b.metres());
        ByteForm.instant(out, b.first());
        out.writeUTF(b.id());
    }

    private static Bare bare(DataInput in) throws IOException {
        return new Bare(
                ByteForm.optional(in, DataInput::readUTF),
                in.readInt(),
                in.readDouble(),
                ByteForm.instant(in),
                in.readUTF());
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
}
