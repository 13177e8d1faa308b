package chainage.store.row;

import chainage.quantity.ContentDigest;
import chainage.quantity.RideKey;
import chainage.ride.Pedalling;
import chainage.ride.Ride;
import chainage.ride.RideFormat;
import java.io.IOException;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.Locale;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;

/**
 * A ride to and from its row. Figures in columns are exact; those in the two JSON columns are rounded, so that a ride
 * stays small: seconds, degrees, and what weather reports say to 0.01, a gear's revolutions and metres to 0.1, its joules
 * and a waypoint's metres to 1. Instants keep their milliseconds.
 */
public final class RideRow {
    private RideRow() {}

    public static void bind(KeptInsert insert, Ride ride) throws SQLException {
        insert.whole(ride.key().session())
                .text(ride.key().shortestId())
                .text(ride.format().word())
                .whole(ride.start().toEpochMilli())
                .real(ride.elapsedSeconds())
                .real(ride.movingSeconds())
                .real(ride.distance().metres())
                .text(word(ride.distance().from()))
                .text(ride.activity().sport())
                .text(ride.activity().subSport())
                .text(word(ride.activity().kind()))
                .whole(ride.activity().indoor() ? 1 : 0)
                .real(ride.effort().ascentMetres())
                .real(ride.effort().celsius())
                .real(ride.effort().watts())
                .real(ride.effort().medianSpeed())
                .whole(ride.effort().samples())
                .text(evidence(ride))
                .text(pedalling(ride.pedalling()))
                .bytes(bytes(ride.key().digest()));
    }

    /** All that is kept of a ride but the content it came from; alike for two that are kept alike. */
    public static String recorded(Ride ride) {
        Ride.Effort effort = ride.effort();
        return new JsonRow()
                .with("session", ride.key().session())
                .with("format", ride.format().word())
                .with("start", ride.start().toEpochMilli())
                .with("times", List.of(ride.elapsedSeconds(), ride.movingSeconds()))
                .with(
                        "metres",
                        List.of(ride.distance().metres(), word(ride.distance().from())))
                .with("activity", ride.activity().toString())
                .with("effort", effort.toString())
                // Ledgers of before have no offset, and the recording is the same.
                .with("evidence", evidence(ride.withOffset(null)))
                .with("pedalling", pedalling(ride.pedalling()))
                .toString();
    }

    /**
     * Reads a row, but for its track, which is read when it is looked at.
     *
     * @param later gets what is wrong with the track then; where it throws nothing, the ride has none
     * @throws DamagedRowException when the row is not as it was written
     * @throws RuntimeException when no ride can be made of it
     */
    public static Ride read(ResultSet kept, Consumer<RuntimeException> later) throws SQLException, DamagedRowException {
        KeptRow row = new KeptRow(kept);
        int session = (int) row.whole("session");
        String id = row.text("id");
        String format = row.text("format");
        Instant start = Instant.ofEpochMilli(row.whole("start"));
        double elapsed = row.real("elapsed");
        double moving = row.real("moving");
        double metres = row.real("metres");
        String metresFrom = row.text("metres_from");
        String sport = row.text("sport");
        String subSport = row.text("sub_sport");
        String kind = row.text("kind");
        boolean indoor = row.whole("indoor") != 0;
        double ascent = row.real("ascent");
        double celsius = row.real("celsius");
        double watts = row.real("watts");
        double medianSpeed = row.real("median_speed");
        int samples = (int) row.whole("samples");
        String told = row.text("evidence");
        String pedalling = row.optionalText("pedalling");
        byte[] digest = row.bytes("digest");
        row.verify();
        RideEvidence evidence = RideEvidence.of(told, start, later);
        return RideBounds.within(new Ride(
                RideKey.named(digest(digest), session, id),
                constant(RideFormat.class, format),
                start,
                elapsed,
                moving,
                new Ride.Distance(metres, constant(Ride.MetresFrom.class, metresFrom)),
                new Ride.Effort(ascent, celsius, watts, medianSpeed, samples),
                new Ride.Activity(sport, subSport, constant(Ride.Activity.Kind.class, kind), indoor),
                pedalling(pedalling),
                evidence.devices(),
                evidence.weather(),
                evidence.labels(),
                evidence.trace(),
                evidence.remarks(),
                evidence.salvaged(),
                evidence.offset()));
    }

    /** As {@link #read}, with nothing left to be read later. */
    public static Ride readAll(ResultSet row) throws SQLException, DamagedRowException {
        Ride ride = read(row, e -> {
            throw e;
        });
        ride.trace().forEach(w -> {});
        return ride;
    }

    public static ContentDigest digest(byte[] bytes) {
        return new ContentDigest(HexFormat.of().formatHex(bytes));
    }

    public static byte @Nullable [] bytes(@Nullable ContentDigest digest) {
        return digest == null ? null : HexFormat.of().parseHex(digest.hex());
    }

    static String evidence(Ride ride) {
        long start = ride.start().toEpochMilli();
        Ride.Labels labels = ride.labels();
        ZoneOffset offset = ride.offset();
        boolean labelled = !(labels.title() + labels.notes() + labels.keywords()).isEmpty();
        return new JsonRow()
                .with("devices", rows(ride.devices().stream().map(d -> List.of(d.type(), d.serial()))))
                .with(
                        "weather",
                        rows(ride.weather().stream()
                                .map(w -> Arrays.asList(
                                        w.at().toEpochMilli() - start,
                                        w.current() ? 1 : 0,
                                        w.condition(),
                                        rounded(w.celsius()),
                                        rounded(w.humidityPercent())))))
                .with("labels", labelled ? List.of(labels.title(), labels.notes(), labels.keywords()) : null)
                .with(
                        "trace",
                        rows(ride.trace().stream()
                                .map(p -> Arrays.asList(
                                        p.at().toEpochMilli() - start,
                                        rounded(p.latitude()),
                                        rounded(p.longitude()),
                                        rounded(p.metres(), 1)))))
                .with("remarks", ride.remarks().isEmpty() ? null : ride.remarks())
                .with("salvaged", ride.salvaged())
                .with("offset", offset == null ? null : offset.getTotalSeconds())
                .toString();
    }

    static @Nullable String pedalling(Pedalling pedalling) {
        if (pedalling.equals(Pedalling.NONE)) {
            return null;
        }
        List<Object> rows = new ArrayList<>();
        for (Pedalling.Row r : pedalling.rows()) {
            rows.add(Arrays.asList(
                    r.ring(),
                    r.cog(),
                    // A band's centre ends in .125 or .375, so this one keeps a third decimal.
                    rounded(r.development(), 1000),
                    rounded(r.seconds()),
                    rounded(r.revolutions(), 10),
                    rounded(r.joules(), 1),
                    rounded(r.metres(), 10)));
        }
        return new JsonRow()
                .with(
                        "coasting",
                        Arrays.asList(rounded(pedalling.coastingSeconds()), rounded(pedalling.coastingMetres())))
                .with("rows", rows)
                .toString();
    }

    static Pedalling pedalling(@Nullable String text) {
        if (text == null) {
            return Pedalling.NONE;
        }
        List<double[]> coasting = new ArrayList<>();
        List<Pedalling.Row> rows = new ArrayList<>();
        try (RowJson json = new RowJson(text)) {
            json.object(field -> {
                switch (field) {
                    case "coasting" -> coasting.add(json.row(c -> new double[] {c.real(), c.real()}));
                    case "rows" ->
                        rows.addAll(json.rows(r -> new Pedalling.Row(
                                r.count(), r.count(), r.real(), r.real(), r.real(), r.real(), r.real())));
                    default -> json.skip();
                }
            });
        } catch (IOException e) {
            throw new IllegalArgumentException("no JSON object: " + e.getMessage(), e);
        }
        if (coasting.size() != 1) {
            throw new IllegalArgumentException("pedalling with " + coasting.size() + " words on coasting");
        }
        return new Pedalling(rows, coasting.get(0)[0], coasting.get(0)[1]);
    }

    private static @Nullable Object rows(java.util.stream.Stream<? extends List<?>> rows) {
        List<? extends List<?>> list = rows.toList();
        return list.isEmpty() ? null : list;
    }

    private static @Nullable Object rounded(double value) {
        return rounded(value, 100);
    }

    /** Null for NaN; a whole number without decimals, since those are most of the bytes. */
    private static @Nullable Object rounded(double value, int parts) {
        if (!Double.isFinite(value)) {
            return null;
        }
        long scaled = Math.round(value * parts);
        return scaled % parts == 0 ? (Object) (scaled / parts) : (Object) (scaled / (double) parts);
    }

    private static String word(Enum<?> constant) {
        return constant.name().toLowerCase(Locale.ROOT);
    }

    private static <E extends Enum<E>> E constant(Class<E> type, String word) {
        return Enum.valueOf(type, word.toUpperCase(Locale.ROOT));
    }
}
