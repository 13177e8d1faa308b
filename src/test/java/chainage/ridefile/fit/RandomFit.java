package chainage.ridefile.fit;

import com.garmin.fit.Fit;
import com.garmin.fit.MesgNum;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;

/**
 * FIT files of random messages: needed fields and others, in both orders of bytes, with developer fields, arrays, texts
 * of any bytes, times in headers, local numbers defined anew. Mostly as the profile has it, here and there not.
 */
final class RandomFit {
    private static final int[] KINDS = {
        MesgNum.RECORD,
        MesgNum.RECORD,
        MesgNum.RECORD,
        MesgNum.EVENT,
        MesgNum.EVENT,
        MesgNum.SESSION,
        MesgNum.LAP,
        MesgNum.SPORT,
        MesgNum.WORKOUT,
        MesgNum.FILE_ID,
        MesgNum.DEVICE_INFO,
        MesgNum.WEATHER_CONDITIONS,
        MesgNum.HRV,
        MesgNum.HR,
        MesgNum.MONITORING,
        MesgNum.USER_PROFILE,
        MesgNum.FIELD_DESCRIPTION,
        MesgNum.DEVELOPER_DATA_ID,
        0xFF07
    };
    private static final int[] TYPES = {
        Fit.BASE_TYPE_ENUM, Fit.BASE_TYPE_SINT8, Fit.BASE_TYPE_UINT8, Fit.BASE_TYPE_SINT16, Fit.BASE_TYPE_UINT16,
        Fit.BASE_TYPE_SINT32, Fit.BASE_TYPE_UINT32, Fit.BASE_TYPE_STRING, Fit.BASE_TYPE_FLOAT32, Fit.BASE_TYPE_FLOAT64,
        Fit.BASE_TYPE_UINT8Z, Fit.BASE_TYPE_UINT16Z, Fit.BASE_TYPE_UINT32Z, Fit.BASE_TYPE_BYTE, Fit.BASE_TYPE_SINT64,
        Fit.BASE_TYPE_UINT64, Fit.BASE_TYPE_UINT64Z, 0x1F
    };

    private final Random random;
    private final FitFixture.Raw raw = new FitFixture.Raw();
    private final Layout[] layouts = new Layout[16];
    private long clock;

    private record Column(int field, int size, int type) {}

    private record Layout(boolean bigEndian, List<Column> columns, int foreign) {
        boolean timed() {
            return columns.stream().anyMatch(c -> c.field() == Fit.FIELD_NUM_TIMESTAMP);
        }
    }

    RandomFit(long seed) {
        random = new Random(seed);
        clock = 1_000_000_000L + random.nextInt(1000);
    }

    byte[] file() {
        for (int i = 0; i < 6; i++) {
            define(random.nextInt(16));
        }
        int messages = random.nextInt(60);
        for (int i = 0; i < messages; i++) {
            if (random.nextInt(12) == 0) {
                define(random.nextInt(16));
            }
            int local = random.nextInt(16);
            Layout layout = layouts[local];
            if (layout != null) {
                if (local < 4 && !layout.timed() && random.nextInt(3) > 0) {
                    raw.bytes(0x80 | local << 5 | random.nextInt(32));
                } else {
                    raw.bytes(local);
                }
                data(layout);
            }
        }
        return raw.file();
    }

    private void define(int local) {
        int kind = KINDS[random.nextInt(KINDS.length)];
        boolean bigEndian = random.nextBoolean();
        List<Column> columns = new ArrayList<>();
        NeededFields needed = NeededFields.of(kind);
        if (needed != null) {
            needed.fields().forEach((field, need) -> {
                boolean sdk = need.use() == NeededFields.Use.SDK;
                if (sdk ? random.nextInt(60) == 0 : random.nextInt(3) > 0) {
                    columns.add(column(field, sdk ? randomType() : need.type()));
                }
            });
        } else if (random.nextBoolean()) {
            columns.add(column(Fit.FIELD_NUM_TIMESTAMP, Fit.BASE_TYPE_UINT32));
        }
        int others = random.nextInt(4);
        for (int i = 0; i < others; i++) {
            int field = random.nextInt(random.nextInt(10) == 0 ? 256 : 120);
            boolean asked = needed != null && needed.need(field) != null;
            if ((!asked && field != Fit.FIELD_NUM_TIMESTAMP) || random.nextInt(20) == 0) {
                columns.add(random.nextInt(columns.size() + 1), column(field, randomType()));
            }
        }
        int[] fields = columns.stream()
                .flatMapToInt(c -> java.util.stream.IntStream.of(c.field(), c.size(), c.type()))
                .toArray();
        int foreign = random.nextInt(4) == 0 ? 1 + random.nextInt(9) : 0;
        raw.define(local | (foreign > 0 ? 0x20 : 0), bigEndian, kind, fields);
        if (foreign > 0) {
            raw.bytes(1, random.nextInt(3), foreign, random.nextInt(2));
        }
        layouts[local] = new Layout(bigEndian, columns, foreign);
    }

    private int randomType() {
        return TYPES[random.nextInt(TYPES.length)];
    }

    /** Of one value's size; now and then an array, or a size that fits no value. */
    private Column column(int field, int type) {
        int number = type & Fit.BASE_TYPE_NUM_MASK;
        int one = number < Fit.BASE_TYPES ? sizeOf(type) : 1 + random.nextInt(8);
        int size = type == Fit.BASE_TYPE_STRING
                ? 1 + random.nextInt(20)
                : random.nextInt(40) == 0
                        ? one * (1 + random.nextInt(4))
                        : random.nextInt(200) == 0 ? random.nextInt(12) : one;
        return new Column(field, size, type);
    }

    private static int sizeOf(int type) {
        return switch (type) {
            case Fit.BASE_TYPE_SINT16, Fit.BASE_TYPE_UINT16, Fit.BASE_TYPE_UINT16Z -> 2;
            case Fit.BASE_TYPE_SINT32, Fit.BASE_TYPE_UINT32, Fit.BASE_TYPE_UINT32Z, Fit.BASE_TYPE_FLOAT32 -> 4;
            case Fit.BASE_TYPE_FLOAT64, Fit.BASE_TYPE_SINT64, Fit.BASE_TYPE_UINT64, Fit.BASE_TYPE_UINT64Z -> 8;
            default -> 1;
        };
    }

    private void data(Layout layout) {
        for (Column c : layout.columns()) {
            if (c.field() == Fit.FIELD_NUM_TIMESTAMP && c.size() == 4) {
                clock += random.nextInt(40);
                raw.whole(random.nextInt(9) == 0 ? -1 : clock, 4, layout.bigEndian());
            } else if (c.type() == Fit.BASE_TYPE_STRING) {
                text(c.size());
            } else if (random.nextInt(6) == 0) {
                int bits = 8 * Math.min(8, Math.max(1, c.size()));
                // All ones, zero, and the greatest signed number: the invalid ones are among them.
                long[] edges = {-1, 0, Long.MAX_VALUE >>> (64 - bits)};
                raw.whole(edges[random.nextInt(edges.length)], c.size(), layout.bigEndian());
            } else {
                raw.whole(
                        random.nextInt(3) == 0 ? random.nextInt(60) : random.nextLong(), c.size(), layout.bigEndian());
            }
        }
        for (int i = 0; i < layout.foreign(); i++) {
            raw.bytes(random.nextInt(256));
        }
    }

    private void text(int size) {
        for (int i = 0; i < size; i++) {
            int pick = random.nextInt(10);
            raw.bytes(pick == 0 ? 0 : pick == 1 ? random.nextInt(256) : pick == 2 ? ' ' : 'a' + random.nextInt(26));
        }
    }
}
