package chainage.ridefile;

import chainage.quantity.ContentDigest;
import chainage.ride.RideFormat;
import chainage.ridefile.fit.FitReader;
import chainage.ridefile.gpx.GpxReader;
import chainage.ridefile.tcx.TcxReader;
import chainage.ridefile.xml.XmlBrokenException;
import chainage.ridefile.xml.XmlReader;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.HexFormat;
import java.util.regex.Pattern;

/** Reads ride files of any of the formats. Holds no state; any number of threads may call it. */
public final class RideFiles {
    private static final String EXPORT_AGAIN = "export it again as FIT, GPX or TCX";

    private static final Pattern ROOT =
            Pattern.compile("<([\\w.-]+:)?(gpx|TrainingCenterDatabase)[\\s>/]", Pattern.CASE_INSENSITIVE);

    private RideFiles() {}

    /**
     * Reads one file.
     *
     * @param content the whole file, decompressed
     * @param latest no ride can start after this; later dates are refused as a wrong clock
     * @throws RideFileException when nothing in it can be used
     */
    public static Decoded decode(byte[] content, Instant latest) throws RideFileException {
        return decode(content, ContentDigest.of(content), latest);
    }

    /** The same for a content whose digest is known already. */
    public static Decoded decode(byte[] content, ContentDigest digest, Instant latest) throws RideFileException {
        if (content.length == 0) {
            throw new RideFileException("the file is empty", "copy or export it again", true);
        }
        if (FitReader.claims(content)) {
            Findings findings = new Findings(RideFormat.FIT, digest, latest);
            FitReader.read(content, findings);
            return findings.decoded();
        }
        if (looksLikeXml(content)) {
            return xml(content, digest, latest);
        }
        throw new RideFileException("neither FIT, GPX nor TCX (first bytes " + hex(content) + ")", EXPORT_AGAIN, false);
    }

    /**
     * Reads the points of a course, ridden or planned; times are not needed.
     *
     * @param content the whole file, decompressed
     * @throws RideFileException when it is no ride file or breaks on the way
     */
    public static Track track(byte[] content) throws RideFileException {
        if (FitReader.claims(content)) {
            return new Track(RideFormat.FIT, FitReader.points(content));
        }
        if (!looksLikeXml(content)) {
            throw new RideFileException("neither FIT, GPX nor TCX", EXPORT_AGAIN, false);
        }
        XmlReader in = open(content);
        RideFormat format = formatOf(in);
        try {
            Track track = new Track(format, new TrackXml(in).read());
            int more = in.more();
            if (more > 0) {
                throw new RideFileException(
                        "more stands behind the end of the XML, at line " + more, "cut it off", false);
            }
            return track;
        } catch (XmlBrokenException e) {
            throw broken(e);
        }
    }

    /**
     * Whether the first bytes of a content promise one of the formats, so that a folder of photos is not read to its
     * end. Generous: what only looks like a ride file is refused with a reason by {@link #decode}.
     *
     * @param head the first bytes; a root element may stand behind a long comment
     */
    public static boolean promises(byte[] head) {
        if (FitReader.marked(head)) {
            return true;
        }
        // Without its NULs a text in UTF-16 reads like one in a one-byte code.
        String text = new String(head, StandardCharsets.ISO_8859_1).replace("\0", "");
        return ROOT.matcher(text).find();
    }

    private static Decoded xml(byte[] content, ContentDigest digest, Instant latest) throws RideFileException {
        XmlReader in = open(content);
        RideFormat format = formatOf(in);
        Findings findings = new Findings(format, digest, latest);
        XmlDocument document = format == RideFormat.GPX ? new GpxReader(in, findings) : new TcxReader(in, findings);
        document.read();
        return findings.decoded();
    }

    private static XmlReader open(byte[] content) throws RideFileException {
        try {
            return new XmlReader(content);
        } catch (XmlBrokenException e) {
            throw broken(e);
        }
    }

    private static RideFileException broken(XmlBrokenException e) {
        return new RideFileException(e.why() + " at line " + e.line(), EXPORT_AGAIN, e.torn());
    }

    /** The format by the root element that the reader stands in. */
    private static RideFormat formatOf(XmlReader in) throws RideFileException {
        return switch (in.name()) {
            case "gpx" -> RideFormat.GPX;
            case "trainingcenterdatabase" -> RideFormat.TCX;
            default ->
                throw new RideFileException(
                        "XML, but neither GPX nor TCX (its root is <" + plain(in.name()) + ">)", EXPORT_AGAIN, false);
        };
    }

    /** A byte-order mark or space, then "&lt;"; in UTF-16 the same with zero bytes between. */
    private static boolean looksLikeXml(byte[] content) {
        int i = 0;
        while (i < content.length && i < 4096) {
            int b = content[i] & 0xFF;
            boolean mark = i < 3 && (b == 0xEF || b == 0xBB || b == 0xBF || b == 0xFE || b == 0xFF);
            boolean space = b == ' ' || (b >= '\t' && b <= '\r') || (b == 0 && i < 4);
            if (!mark && !space) {
                return b == '<';
            }
            i++;
        }
        return false;
    }

    private static String hex(byte[] content) {
        return HexFormat.ofDelimiter(" ").formatHex(content, 0, Math.min(8, content.length));
    }

    private static String plain(String name) {
        String ascii = name.replaceAll("[^\\w.-]", "?");
        return ascii.length() > 40 ? ascii.substring(0, 40) + "…" : ascii;
    }
}
