package chainage.importer;

import chainage.quantity.ContentDigest;
import chainage.quantity.RideKey;
import chainage.ride.Pedalling;
import chainage.ride.Ride;
import chainage.ride.RideFormat;
import chainage.ridefile.Decoded;
import chainage.ridefile.RideFileException;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.zip.GZIPOutputStream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.jspecify.annotations.Nullable;

/**
 * Contents that say in words what the reader shall find in them, and that reader. The first word is the mark of a ride
 * format, a word "n=…" only makes a content differ from others.
 */
final class Fake {
    /** Of what "ahead" stands for. */
    static final Instant DATE = Instant.parse("2026-06-01T08:00:00Z");

    private static final String MARK = "<gpx > ";

    private Fake() {}

    static byte[] content(String words) {
        return (MARK + words).getBytes(StandardCharsets.UTF_8);
    }

    static Decoded decode(byte[] content, ContentDigest digest, Instant latest) throws RideFileException {
        List<Ride> rides = new ArrayList<>();
        List<Decoded.Passed> passed = new ArrayList<>();
        int session = 0;
        Instant ahead = null;
        String text = new String(content, StandardCharsets.UTF_8);
        for (String word : List.of(text.substring(MARK.length()).split(" ", -1))) {
            switch (word) {
                case "ride" -> rides.add(ride(digest, session++, null));
                case "salvaged" -> rides.add(ride(digest, session++, "cut off after 5 of 9 km"));
                case "course" -> passed.add(new Decoded.Passed(session++, false, "a course", ""));
                case "ahead" -> {
                    Instant date = latest.isBefore(DATE) ? DATE : null;
                    if (date == null) {
                        rides.add(ride(digest, session, null));
                    } else {
                        passed.add(new Decoded.Passed(session, true, "dated " + date, "set the clock"));
                        ahead = date;
                    }
                    session++;
                }
                case "broken" -> passed.add(new Decoded.Passed(session++, true, "no times", "export it again"));
                case "refuse" -> throw new RideFileException("CRC is wrong at byte 7", "export it again", false);
                case "torn" -> throw new RideFileException("ends at byte 7", "copy it again", true);
                case "bug" -> throw new IllegalStateException("index 7");
                case "deep" -> throw new StackOverflowError();
                case "memory" -> throw new OutOfMemoryError("as a test");
                default -> {
                    // Only there to make the content differ.
                }
            }
        }
        return new Decoded(RideFormat.GPX, rides, passed, ahead);
    }

    private static Ride ride(ContentDigest digest, int session, @Nullable String salvaged) {
        return new Ride(
                new RideKey(digest, session),
                RideFormat.GPX,
                Instant.ofEpochSecond(1_700_000_000L + digest.hex().hashCode()),
                3600,
                3500,
                new Ride.Distance(25_000, Ride.MetresFrom.POSITIONS),
                new Ride.Effort(Double.NaN, Double.NaN, Double.NaN, 7.5, 3600),
                new Ride.Activity("", "", Ride.Activity.Kind.UNSTATED, false),
                Pedalling.NONE,
                List.of(),
                List.of(),
                new Ride.Labels("", "", ""),
                List.of(),
                List.of(),
                salvaged,
                null);
    }

    static byte[] gzip(byte[] content) throws IOException {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        try (GZIPOutputStream out = new GZIPOutputStream(bytes)) {
            out.write(content);
        }
        return bytes.toByteArray();
    }

    /** An entry of an archive. */
    static final class Entry {
        private final String name;
        private final byte[] content;

        Entry(String name, byte[] content) {
            this.name = name;
            this.content = content;
        }
    }

    static Entry entry(String name, String words) {
        return new Entry(name, content(words));
    }

    /** An archive; a name may occur twice, which the JDK's writer would not allow. */
    static byte[] zip(Entry... entries) throws IOException {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        List<String> standIns = new ArrayList<>();
        try (ZipOutputStream out = new ZipOutputStream(bytes)) {
            for (Entry e : entries) {
                String name = e.name;
                if (standIns.contains(name)) {
                    name = (char) (1 + standIns.size()) + name.substring(1);
                }
                standIns.add(name);
                out.putNextEntry(new ZipEntry(name));
                out.write(e.content);
                out.closeEntry();
            }
        }
        byte[] zip = bytes.toByteArray();
        for (int i = 0; i < entries.length; i++) {
            replace(zip, standIns.get(i), entries[i].name);
        }
        return zip;
    }

    private static void replace(byte[] bytes, String from, String to) {
        if (from.equals(to)) {
            return;
        }
        String text = new String(bytes, StandardCharsets.ISO_8859_1);
        for (int at = text.indexOf(from); at >= 0; at = text.indexOf(from, at + 1)) {
            System.arraycopy(to.getBytes(StandardCharsets.ISO_8859_1), 0, bytes, at, to.length());
        }
    }
}
