package chainage.ridefile.fit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.garmin.fit.Event;
import com.garmin.fit.EventMesg;
import com.garmin.fit.Fit;
import com.garmin.fit.MesgNum;
import com.garmin.fit.RecordMesg;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledIfSystemProperty;

/**
 * Our own reader against the SDK: where it reads a part at all, it delivers the same messages with the same values, and
 * the SDK finds nothing wrong with the part.
 */
class PlainPartTest {
    /** Asked for together only, the finer one first: the SDK fills it from the other where it is missing. */
    private static final Map<Integer, Integer> OLDER = Map.of(
            RecordMesg.EnhancedSpeedFieldNum, RecordMesg.SpeedFieldNum,
            RecordMesg.EnhancedAltitudeFieldNum, RecordMesg.AltitudeFieldNum);

    private static final List<Integer> GEARS = List.of(
            EventMesg.RearGearNumFieldNum,
            EventMesg.RearGearFieldNum,
            EventMesg.FrontGearNumFieldNum,
            EventMesg.FrontGearFieldNum);

    private int plain;
    private int parts;

    private void compare(byte[] content, String what) {
        for (FitParts.Part part : FitParts.of(content)) {
            parts++;
            PlainPart own = PlainPart.of(content, part);
            if (own != null) {
                plain++;
                List<String> expected = new ArrayList<>();
                assertNull(SdkPart.run(content, part, m -> expected.add(values(m))), what);
                List<String> actual = new ArrayList<>();
                own.run(m -> actual.add(values(m)));
                for (int i = 0; i < Math.min(expected.size(), actual.size()); i++) {
                    assertEquals(expected.get(i), actual.get(i), what + ", message " + i);
                }
                assertEquals(expected.size(), actual.size(), what);
            }
        }
    }

    /** The kind, and every value that anything asks for. */
    private static String values(Message m) {
        StringBuilder text = new StringBuilder().append(m.kind());
        NeededFields needed = NeededFields.of(m.kind());
        if (needed == null) {
            return text.toString();
        }
        for (Map.Entry<Integer, NeededFields.Need> e : new TreeMap<>(needed.fields()).entrySet()) {
            int field = e.getKey();
            NeededFields.Need need = e.getValue();
            if (need.use() != NeededFields.Use.ASKED) {
                continue;
            }
            if (need.type() == Fit.BASE_TYPE_STRING) {
                text.append(' ').append(field).append('=').append(m.text(field));
            } else if (m.kind() == MesgNum.RECORD && OLDER.containsKey(field)) {
                text.append(' ')
                        .append(field)
                        .append('=')
                        .append(MessageValues.number(m, field, OLDER.getOrDefault(field, -1)));
            } else if (m.kind() != MesgNum.RECORD || !OLDER.containsValue(field)) {
                text.append(' ').append(field).append('=').append(m.number(field));
                text.append(need.scale() == 1 ? "/" + m.whole(field) : "");
            }
        }
        if (m.kind() == MesgNum.EVENT) {
            long event = m.whole(EventMesg.EventFieldNum);
            if (event == Event.FRONT_GEAR_CHANGE.getValue() || event == Event.REAR_GEAR_CHANGE.getValue()) {
                GEARS.forEach(g -> text.append(" gear ").append(m.whole(g)));
            }
        }
        return text.toString();
    }

    @Test
    void randomFilesAreReadAsTheSdkReadsThem() {
        for (long seed = 0; seed < 6000; seed++) {
            compare(new RandomFit(seed).file(), "seed " + seed);
        }
        assertTrue(plain > 1500, plain + " of " + parts + " read by ourselves");
    }

    /** The checksum is mended after each change, so that nothing but the content tells. */
    @Test
    void bentFilesWithTheRightChecksumToo() {
        byte[] ride = FitFixture.tenMinutes();
        for (long seed = 0; seed < 4000; seed++) {
            Random random = new Random(seed);
            byte[] bent = seed % 4 == 0 ? Arrays.copyOf(ride, ride.length) : new RandomFit(seed).file();
            for (int i = random.nextInt(3); i >= 0 && bent.length > 16; i--) {
                bent[12 + random.nextInt(bent.length - 14)] ^= (byte) (1 << random.nextInt(8));
            }
            int crc = Crc16.of(bent, 0, bent.length - 2);
            bent[bent.length - 2] = (byte) crc;
            bent[bent.length - 1] = (byte) (crc >>> 8);
            compare(bent, "seed " + seed);
        }
        assertTrue(plain > 500, plain + " of " + parts + " read by ourselves");
    }

    @Test
    void cutAndBrokenFilesAreLeftToTheSdk() {
        for (long seed = 0; seed < 300; seed++) {
            byte[] whole = new RandomFit(seed).file();
            byte[] cut = Arrays.copyOf(whole, whole.length - 1 - new Random(seed).nextInt(whole.length - 12));
            byte[] bent = whole.clone();
            bent[new Random(seed).nextInt(whole.length)] ^= 0x10;
            for (byte[] content : List.of(cut, bent)) {
                for (FitParts.Part part : FitParts.of(content)) {
                    assertNull(PlainPart.of(content, part), "seed " + seed);
                }
            }
        }
    }

    @Test
    void ordinaryRidesAreReadByOurselves() throws IOException {
        compare(FitFixture.tenMinutes(), "ten minutes");
        try (Stream<Path> files = Files.walk(Path.of("fixtures"))) {
            for (Path file : files.filter(f -> f.toString().endsWith(".fit")).toList()) {
                compare(Files.readAllBytes(file), file.toString());
            }
        }
        assertTrue(parts > 10, parts + " parts");
        assertTrue(plain >= 0.9 * parts, plain + " of " + parts + " read by ourselves");
    }

    @Test
    @EnabledIfSystemProperty(named = "corpus", matches = ".+")
    void realFilesAreReadAsTheSdkReadsThem() throws IOException {
        try (Stream<Path> files = Files.walk(Path.of(System.getProperty("corpus", ".")))) {
            for (Path file : files.filter(f -> f.toString().endsWith(".fit")).toList()) {
                compare(Files.readAllBytes(file), file.toString());
            }
        }
        System.out.println(plain + " of " + parts + " parts read by ourselves");
        assertTrue(plain > 0.5 * parts, plain + " of " + parts + " read by ourselves");
    }
}
