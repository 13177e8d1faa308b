package chainage.ridefile.fit;

import com.garmin.fit.Fit;
import java.util.ArrayList;
import java.util.List;

/**
 * Where the parts of a chained FIT file lie. Each has a header of 12 or 14 bytes (size, protocol, profile, data size,
 * ".FIT", and a header CRC in the longer one), its data, and a CRC of two bytes.
 */
final class FitParts {
    private static final int LEAST_HEADER = 12;
    private static final int CRC_BYTES = 2;

    private FitParts() {}

    /**
     * One part.
     *
     * @param from first byte of its header
     * @param to after its last byte; the end of the file, or the next header, when its stated size is wrong
     * @param statedTo where it ends by its header's data size
     */
    record Part(int from, int to, long statedTo) {
        /** True when the header's data size is right. */
        boolean sizeHolds() {
            return statedTo == to;
        }

        /** True when nothing but the checksum can be missing. */
        boolean lacksChecksum() {
            return statedTo > to && statedTo <= to + CRC_BYTES;
        }
    }

    static boolean headerAt(byte[] content, int at) {
        return at >= 0
                && at + LEAST_HEADER <= content.length
                && (content[at] & 0xFF) >= LEAST_HEADER
                && (content[at] & 0xFF) <= 64
                && markAt(content, at);
    }

    /** True when a header that began here would bear its mark. */
    static boolean markAt(byte[] content, int at) {
        return at + 12 <= content.length
                && content[at + 8] == '.'
                && content[at + 9] == 'F'
                && content[at + 10] == 'I'
                && content[at + 11] == 'T';
    }

    /** All parts in order. Bytes between parts that belong to none are left out. */
    static List<Part> of(byte[] content) {
        List<Part> parts = new ArrayList<>();
        int at = 0;
        while (at < content.length && headerAt(content, at)) {
            Part part = part(content, at);
            parts.add(part);
            at = headerAt(content, part.to()) ? part.to() : nextHeader(content, part.to());
        }
        return parts;
    }

    /** How many bytes other than 0 belong to no part; padding with 0 is common and means nothing. */
    static int strangers(byte[] content, List<Part> parts) {
        int count = 0;
        int at = 0;
        for (Part part : parts) {
            count += nonZero(content, at, part.from());
            at = part.to();
        }
        return count + nonZero(content, at, content.length);
    }

    private static int nonZero(byte[] content, int from, int to) {
        int count = 0;
        for (int i = from; i < to; i++) {
            count += content[i] == 0 ? 0 : 1;
        }
        return count;
    }

    private static Part part(byte[] content, int at) {
        long size = dataSize(content, at);
        long end = at + (content[at] & 0xFF) + size + CRC_BYTES;
        if (size == 0) {
            return new Part(at, nextHeader(content, at + LEAST_HEADER), -1);
        }
        if (end > content.length) {
            return new Part(at, nextHeader(content, at + LEAST_HEADER), end);
        }
        boolean follows = end == content.length || headerAt(content, (int) end);
        if (!follows && Crc16.of(content, at, (int) end) != 0) {
            int next = nextHeader(content, at + LEAST_HEADER);
            return new Part(at, next, end == next ? -1 : end);
        }
        return new Part(at, (int) end, end);
    }

    private static int nextHeader(byte[] content, int from) {
        for (int i = Math.max(0, from); i + LEAST_HEADER <= content.length; i++) {
            if (content[i + 8] == '.' && (content[i] == 12 || content[i] == 14) && headerAt(content, i)) {
                return i;
            }
        }
        return content.length;
    }

    private static long dataSize(byte[] content, int at) {
        return (content[at + 4] & 0xFFL)
                | (content[at + 5] & 0xFFL) << 8
                | (content[at + 6] & 0xFFL) << 16
                | (content[at + 7] & 0xFFL) << 24;
    }

    /** The protocol that the part was written in, such as "3.0", if it is newer than the SDK; else empty. */
    static String newerProtocol(byte[] content, Part part) {
        int version = content[part.from() + 1] & 0xFF;
        return version >> 4 > Fit.PROTOCOL_VERSION_MAJOR ? (version >> 4) + "." + (version & 0xF) : "";
    }

    /** A copy of the part whose header the decoder accepts: with the size that is there, and a protocol it knows. */
    static byte[] decodable(byte[] content, Part part) {
        byte[] copy = java.util.Arrays.copyOfRange(content, part.from(), part.to());
        boolean newer = !newerProtocol(content, part).isEmpty();
        if (part.sizeHolds() && !newer) {
            return copy;
        }
        int header = copy[0] & 0xFF;
        if (!part.sizeHolds()) {
            size(copy, header);
        }
        boolean sound = Crc16.of(copy, 0, copy.length) == 0;
        if (!sound && !part.sizeHolds() && copy.length > header) {
            // Not a checksum, so the last two bytes are data.
            copy = java.util.Arrays.copyOf(copy, copy.length + CRC_BYTES);
            size(copy, header);
        }
        if (newer) {
            copy[1] = (byte) (Fit.PROTOCOL_VERSION_MAJOR << 4);
        }
        if (header >= 14 && copy.length >= 14) {
            // A header CRC of 0 says that there is none.
            copy[12] = 0;
            copy[13] = 0;
        }
        if (sound) {
            int crc = Crc16.of(copy, 0, copy.length - CRC_BYTES);
            copy[copy.length - 2] = (byte) crc;
            copy[copy.length - 1] = (byte) (crc >>> 8);
        }
        return copy;
    }

    private static void size(byte[] copy, int header) {
        int size = Math.max(1, copy.length - header - CRC_BYTES);
        for (int i = 0; i < 4; i++) {
            copy[4 + i] = (byte) (size >>> (8 * i));
        }
    }
}
