package chainage.recall;

import chainage.analysis.Gist;
import chainage.analysis.Gleaned;
import chainage.quantity.ContentDigest;
import chainage.store.file.WholeFile;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.PosixFilePermission;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Instant;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.zip.CRC32;

/**
 * The gists of ledgers, what others' chains have shown to them, and their names, a file each, in a folder that is its
 * owner's alone.
 * Nothing here ever fails a command: what cannot be read is not remembered, what cannot be written is worked out again.
 *
 * <p>A file is the length of its key and the key, the figures, before a gist the state of the ledger, and a CRC-32 of all of
 * that. Key and state hold all that the figures are worked out from, so that those of other facts, another program or
 * another zone are never taken; the sum finds damage.
 *
 * @param folder made when it is first needed
 */
public record Recall(Path folder) {
    private static final Set<PosixFilePermission> OURS = PosixFilePermissions.fromString("rwx------");

    /** Characters of a state. */
    private static final int STATE = 32;

    /** Larger than the gist of any ledger: a year of rides, a few dozen bytes each. */
    private static final long MOST_BYTES = 256L << 20;

    /**
     * What a gist was worked out from, beside the facts.
     *
     * @param ledger the file behind all links
     * @param look of that file, so that one which something else wrote to is not taken for the same
     * @param program its version and its build
     * @param zone by which dates are told where no ride says otherwise
     */
    public record Key(Path ledger, String look, String program, String zone) {
        private byte[] bytes() {
            return String.join("\n", List.of("chainage gist 1", ledger.toString(), look, program, zone))
                    .getBytes(StandardCharsets.UTF_8);
        }
    }

    /**
     * What the figures of others were worked out from.
     *
     * @param ledger the file behind all links
     * @param program its version and its build
     * @param content evidence, names of products and factors
     */
    public record OthersKey(Path ledger, String program, ContentDigest content) {
        private byte[] bytes() {
            return String.join("\n", List.of("chainage others 1", ledger.toString(), program, content.hex()))
                    .getBytes(StandardCharsets.UTF_8);
        }
    }

    /**
     * What was kept.
     *
     * @param state of the ledger: each that is written has one of its own
     * @param gist of the facts of that state
     */
    public record Kept(String state, Gist gist) {
        /** Whether it is of the ledger in that state, and nothing has changed by that instant but the dates. */
        public boolean holds(String now, Instant at) {
            return state.equals(now) && gist.holds(at);
        }
    }

    /** What was kept under that key. */
    public Optional<Kept> of(Key key) {
        return bytes(file(key), key.bytes()).flatMap(kept -> {
            try {
                return Optional.of(read(kept));
            } catch (IOException e) {
                return Optional.empty();
            }
        });
    }

    private static Kept read(byte[] kept) throws IOException {
        return new Kept(
                new String(kept, 0, Math.min(STATE, kept.length), StandardCharsets.US_ASCII),
                ByteForm.read(Arrays.copyOfRange(kept, Math.min(STATE, kept.length), kept.length), GistForm::take));
    }

    private static byte[] bytes(Kept kept) {
        byte[] gist = ByteForm.write(kept.gist(), GistForm::put);
        return ByteBuffer.allocate(STATE + gist.length)
                .put(kept.state().getBytes(StandardCharsets.US_ASCII))
                .put(gist)
                .array();
    }

    /** Keeps a gist in place of what was kept of that ledger. */
    public void keep(Key key, Kept kept) {
        if (kept.state().length() == STATE) {
            keep(file(key), key.bytes(), bytes(kept));
        }
    }

    private void keep(Path file, byte[] name, byte[] form) {
        ByteBuffer all = ByteBuffer.allocate(Integer.BYTES + name.length + form.length + Long.BYTES);
        all.putInt(name.length).put(name).put(form);
        all.putLong(sum(all.array(), all.position()));
        try {
            Files.createDirectories(folder, PosixFilePermissions.asFileAttribute(OURS));
            if (isOurs()) {
                WholeFile.replace(file, "rw-------", part -> Files.write(part, all.array()));
            }
        } catch (IOException | UnsupportedOperationException e) {
            // It is worked out again.
        }
    }

    /**
     * Lines of names, as they were kept under that key; only for a ledger beside which no log lies, of which the key tells
     * nothing.
     */
    public Optional<List<String>> names(Key key) {
        return bytes(file(key.ledger(), "names"), key.bytes())
                .map(kept -> new String(kept, StandardCharsets.UTF_8).lines().toList());
    }

    /** Keeps lines of names in place of those that were kept of that ledger. */
    public void keep(Key key, List<String> names) {
        keep(file(key.ledger(), "names"), key.bytes(), String.join("\n", names).getBytes(StandardCharsets.UTF_8));
    }

    /** What others have shown, as it was kept under that key. */
    public Optional<Gleaned> others(OthersKey key) {
        return bytes(file(key), key.bytes()).flatMap(kept -> {
            try {
                return Optional.of(ByteForm.read(kept, GleanedForm::take));
            } catch (IOException e) {
                return Optional.empty();
            }
        });
    }

    /** Keeps what others have shown in place of what was kept of it for that ledger. */
    public void keep(OthersKey key, Gleaned gleaned) {
        keep(file(key), key.bytes(), ByteForm.write(gleaned, GleanedForm::put));
    }

    /** As {@link #agrees(Key, Kept)}; where this ledger's own file was none of theirs when it was kept, it is another. */
    public boolean agrees(OthersKey key, Gleaned fresh) {
        boolean agrees = others(key)
                .filter(kept -> kept.own().equals(fresh.own()))
                .map(kept ->
                        Arrays.equals(ByteForm.write(kept, GleanedForm::put), ByteForm.write(fresh, GleanedForm::put)))
                .orElse(true);
        if (!agrees) {
            forget(file(key));
        }
        return agrees;
    }

    /**
     * Whether what is kept under a key is this, to the last bit; also where nothing is, or of other facts. What is not, is
     * deleted.
     */
    public boolean agrees(Key key, Kept fresh) {
        boolean agrees = of(key).filter(kept -> kept.state().equals(fresh.state()))
                .map(kept -> Arrays.equals(bytes(kept), bytes(fresh)))
                .orElse(true);
        if (!agrees) {
            forget(key);
        }
        return agrees;
    }

    /** Deletes what is kept of a ledger. */
    public void forget(Key key) {
        forget(file(key));
    }

    private static void forget(Path file) {
        try {
            Files.deleteIfExists(file);
        } catch (IOException e) {
            // Then it is where nobody may write, and was never read.
        }
    }

    private Path file(Key key) {
        return file(key.ledger(), "gist");
    }

    private Path file(OthersKey key) {
        return file(key.ledger(), "others");
    }

    private Path file(Path ledger, String what) {
        return folder.resolve(
                String.format(Locale.ROOT, "%08x.%s", ledger.toString().hashCode(), what));
    }

    /** False where others can have put something into the folder. */
    private boolean isOurs() throws IOException {
        return Files.isDirectory(folder, LinkOption.NOFOLLOW_LINKS)
                && Files.getPosixFilePermissions(folder).equals(OURS)
                && Files.getOwner(folder).getName().equals(System.getProperty("user.name"));
    }

    private Optional<byte[]> bytes(Path file, byte[] name) {
        byte[] all;
        try {
            if (!isOurs()) {
                return Optional.empty();
            }
            all = read(file);
        } catch (IOException | UnsupportedOperationException e) {
            return Optional.empty();
        }
        int from = Integer.BYTES + name.length;
        int to = all.length - Long.BYTES;
        boolean whole = from <= to
                && ByteBuffer.wrap(all).getInt() == name.length
                && Arrays.equals(all, Integer.BYTES, from, name, 0, name.length)
                && ByteBuffer.wrap(all).getLong(to) == sum(all, to);
        return whole ? Optional.of(Arrays.copyOfRange(all, from, to)) : Optional.empty();
    }

    private static byte[] read(Path file) throws IOException {
        try (FileChannel in = FileChannel.open(file, StandardOpenOption.READ, LinkOption.NOFOLLOW_LINKS)) {
            if (in.size() > MOST_BYTES) {
                throw new IOException("no gist is so long");
            }
            ByteBuffer all = ByteBuffer.allocate((int) in.size());
            while (all.hasRemaining() && in.read(all) >= 0) {
                // Read on.
            }
            return Arrays.copyOf(all.array(), all.position());
        }
    }

    private static long sum(byte[] bytes, int length) {
        CRC32 sum = new CRC32();
        sum.update(bytes, 0, length);
        return sum.getValue();
    }
}
