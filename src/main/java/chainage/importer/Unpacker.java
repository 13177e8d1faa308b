package chainage.importer;

import chainage.logbook.LogbookText;
import java.io.ByteArrayInputStream;
import java.io.EOFException;
import java.io.IOException;
import java.io.InputStream;
import java.io.SequenceInputStream;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;
import org.jspecify.annotations.Nullable;

/**
 * Reads one file and hands out the contents in it, in the order they stand there. Streams all the way: of an
 * archive only one entry is in memory, and of that only what may be a ride file.
 */
final class Unpacker {
    private static final String UNPACK = "unpack it and import the folder";

    private final UnpackLimits limits;
    private final Out out;
    private final Bounds bounds;

    /** Takes what was found. Either call may wait. */
    interface Out {
        /** A content that may be a ride file. */
        void content(FoundAt place, byte[] content) throws InterruptedException;

        /** A verdict that needs no decoding; torn when the file ends too early. */
        void verdict(Outcome outcome, boolean torn) throws InterruptedException;
    }

    private Unpacker(UnpackLimits limits, Out out, long size) {
        this.limits = limits;
        this.out = out;
        this.bounds = new Bounds(limits, size);
    }

    static void unpack(FoundAt place, Opening opening, UnpackLimits limits, Out out) throws InterruptedException {
        try (InputStream in = opening.open()) {
            Layer disk = new Layer(in);
            try {
                new Unpacker(limits, out, place.stamp().size()).stage(place, disk, 0, limits.fileBytes());
            } catch (Layer.Failure e) {
                // Every other layer's failures are dealt with where it was made.
                refuse(out, place, "cannot be read (" + e.getMessage() + ")", "check the disk");
            } catch (Bounds.Exceeded e) {
                out.verdict(
                        Outcome.of(place, Outcome.Kind.REFUSED, e.getMessage() + "; the rest was left", UNPACK), false);
            }
        } catch (IOException e) {
            refuse(out, place, Walk.why(e), "check its permissions and the disk");
        }
    }

    private static void refuse(Out out, FoundAt place, String reason, String hint) throws InterruptedException {
        out.verdict(Outcome.of(place, Outcome.Kind.REFUSED, reason, hint).unsettled(), false);
    }

    private void stage(FoundAt place, Layer in, int depth, int most) throws IOException, InterruptedException {
        byte[] head = in.readNBytes(Sniff.HEAD);
        Sniff sniff = Sniff.of(head);
        switch (sniff) {
            case EMPTY -> notRide(place, "the file is empty", true);
            case OTHER -> notRide(place, "no FIT, GPX or TCX content", head.length < Sniff.HEAD);
            case TAR ->
                out.verdict(
                        Outcome.of(place, Outcome.Kind.NOT_RIDE, "a tar archive, which is not read", UNPACK), false);
            case RIDE -> content(place, head, in, most, "ride file");
            case LOGBOOK -> content(place, head, in, Math.min(most, LogbookText.LARGEST), "logbook");
            case GZIP, ZIP -> {
                if (depth == limits.depth()) {
                    refused(place, "packed more than " + limits.depth() + " deep", UNPACK, false);
                } else if (sniff == Sniff.GZIP) {
                    gzip(place, whole(head, in), depth + 1, most);
                } else {
                    zip(place, new Tail(whole(head, in)), depth + 1);
                }
            }
        }
    }

    private static InputStream whole(byte[] head, InputStream rest) {
        return new SequenceInputStream(new ByteArrayInputStream(head), rest);
    }

    private void content(FoundAt place, byte[] head, InputStream in, int most, String what)
            throws IOException, InterruptedException {
        if (head.length < Sniff.HEAD && head.length <= most) {
            out.content(place, head);
            return;
        }
        // As large as the file says it is, so that a large one is in memory once and not twice; what it says can be
        // wrong.
        byte[] content = Arrays.copyOf(
                head, (int) Math.max(head.length, Math.min(most, place.stamp().size())));
        int length = head.length;
        while (true) {
            length += in.readNBytes(content, length, content.length - length);
            int next = length < content.length ? -1 : in.read();
            if (length > most || (length == most && next >= 0)) {
                break;
            }
            if (next < 0) {
                out.content(place, length == content.length ? content : Arrays.copyOf(content, length));
                return;
            }
            content = Arrays.copyOf(content, (int) Math.min(most, 2L * length));
            content[length++] = (byte) next;
        }
        refused(place, "larger than " + (most >> 20) + " MB, as no " + what + " is", "cut it into parts", false);
    }

    private void gzip(FoundAt place, InputStream in, int depth, int most) throws IOException, InterruptedException {
        Layer packed = new Layer(in);
        Gunzip gunzip = new Gunzip(packed);
        Layer unpacked = bounds.unpacking(gunzip, packed);
        try {
            stage(place, unpacked, depth, most);
        } catch (Layer.Failure e) {
            if (!e.isOf(unpacked)) {
                throw e;
            }
            boolean torn = e.getCause() instanceof Gunzip.Broken broken && broken.torn();
            refused(place, String.valueOf(e.getMessage()), "copy or export it again", torn);
        } finally {
            gunzip.close(); // its native memory; the layer below goes on
        }
    }

    private void zip(FoundAt place, Tail packed, int depth) throws IOException, InterruptedException {
        int entries = 0;
        @Nullable Layer entryLayer = null;
        Entries zip = new Entries(packed);
        String trouble;
        boolean torn;
        try {
            for (ZipEntry entry = zip.getNextEntry(); entry != null; entry = zip.getNextEntry()) {
                entries++;
                bounds.entry();
                entryLayer = bounds.unpacking(zip, packed);
                entry(place, entry, entries, entryLayer, depth);
                // Through the layer, so that the bounds hold for what is passed over as well.
                entryLayer.drain();
            }
            long directory = zip.endOfEntries(packed);
            packed.drain();
            Tail.End end = packed.end();
            torn = end == null;
            trouble = trouble(entries, directory, end);
        } catch (Layer.Failure e) {
            if (entryLayer == null || !e.isOf(entryLayer)) {
                throw e;
            }
            torn = e.getCause() instanceof EOFException;
            trouble = "the archive is broken in entry " + entries + " (" + e.getMessage() + "); the rest was left";
        } catch (Bounds.Exceeded e) {
            throw e;
        } catch (IOException | IllegalArgumentException e) {
            torn = e instanceof EOFException;
            trouble = "the archive is encrypted or broken after " + entries + " entries (" + e.getMessage()
                    + "); the rest was left";
        }
        if (trouble.isEmpty()) {
            out.verdict(Outcome.of(place, Outcome.Kind.ARCHIVE, "", ""), false);
        } else {
            refused(place, trouble, UNPACK, torn);
        }
    }

    /** What the end of an archive says that went unread; empty when nothing did. */
    private static String trouble(int entries, long directory, Tail.@Nullable End end) {
        if (end == null) {
            return "the archive ends too early, after " + entries + " entries";
        } else if ((end.listed() & 0xffff) != (entries & 0xffff)) {
            return "the archive lists " + end.listed() + " entries, " + entries + " could be read";
        }
        return end.last() && end.directory() == directory
                ? ""
                : "more than one archive with " + entries + " entries stands in the file; the rest was left";
    }

    /**
     * The platform's reader, which also tells where the entries ended. Names without the flag for UTF-8 come out byte by
     * byte; EntryName sees whether they are UTF-8 all the same.
     */
    private static final class Entries extends ZipInputStream {
        /** Bytes of an entry's header, which it reads to see that there is none. */
        private static final int HEADER = 30;

        Entries(InputStream in) {
            super(in, StandardCharsets.ISO_8859_1);
        }

        /** Where the first byte stands that belongs to no entry, once no more come. */
        long endOfEntries(Layer packed) throws IOException {
            // What it has taken and not used it keeps in its own "in"; a layer itself never has anything ready.
            return Math.max(0, packed.count() - in.available() - HEADER);
        }
    }

    private void entry(FoundAt archive, ZipEntry entry, int number, Layer layer, int depth)
            throws IOException, InterruptedException {
        String name = EntryName.of(entry);
        if (entry.isDirectory() || EntryName.isHidden(name)) {
            return;
        }
        if (name.length() > EntryName.LONGEST) {
            FoundAt place = archive.entry(EntryName.shortened(name, number), 0);
            refused(place, "the entry's name is longer than " + EntryName.LONGEST + " letters", "pack it again", false);
            return;
        }
        FoundAt place = archive.entry(name, Math.max(0, entry.getSize()));
        if (EntryName.leavesFolder(name)) {
            refused(place, "the entry's name leads out of the archive", UNPACK, false);
        } else {
            stage(place, layer, depth, limits.entryBytes());
        }
    }

    /** What holds no ride is an error only under a name that promises one. */
    private void notRide(FoundAt place, String reason, boolean torn) throws InterruptedException {
        if (place.promisesRide()) {
            refused(place, reason, "export it again", torn);
        } else {
            out.verdict(Outcome.of(place, Outcome.Kind.NOT_RIDE, reason, ""), false);
        }
    }

    private void refused(FoundAt place, String reason, String hint, boolean torn) throws InterruptedException {
        out.verdict(Outcome.of(place, Outcome.Kind.REFUSED, reason, hint), torn);
    }
}
