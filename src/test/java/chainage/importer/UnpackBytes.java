package chainage.importer;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

/** Unpacks bytes as if they were a file, without decoding what is in them. */
public final class UnpackBytes {
    /** Smaller than usual, so that a bound is reached by little input. */
    private static final UnpackLimits SMALL =
            new UnpackLimits(1 << 20, 1 << 19, 200, 1 << 16, 100, 3, 1 << 20, 16, 10, 10);

    private UnpackBytes() {}

    /** Any bytes end in contents and verdicts. */
    public static void unpack(byte[] content, Path scratch) throws IOException, InterruptedException {
        Path file = scratch.resolve("packed");
        Files.write(file, content);
        FoundAt place = new FoundAt("packed", new SourceStamp(file.toString(), content.length, 0));
        int[] verdicts = {0};
        Unpacker.unpack(place, () -> Files.newInputStream(file), SMALL, new Unpacker.Out() {
            @Override
            public void content(FoundAt of, byte[] found) {
                if (found.length > 1 << 20) {
                    throw new AssertionError("more than was allowed: " + found.length);
                }
                verdicts[0]++;
            }

            @Override
            public void verdict(Outcome outcome, boolean torn) {
                if (outcome.kind() == Outcome.Kind.REFUSED && outcome.reason().isEmpty()) {
                    throw new AssertionError("refused without a reason: " + outcome);
                }
                verdicts[0]++;
            }
        });
        if (verdicts[0] == 0) {
            throw new AssertionError("no word about " + content.length + " bytes");
        }
    }
}
