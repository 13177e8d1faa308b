package chainage.importer;

import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import java.util.regex.Pattern;
import java.util.zip.ZipEntry;

/** Names of an archive's entries, which come from outside and are never used to open or make a file. */
final class EntryName {
    private static final Pattern DRIVE = Pattern.compile("[A-Za-z]:.*", Pattern.DOTALL);

    /** Letters; our choice. No tool unpacks a longer one, and each is kept. */
    static final int LONGEST = 1000;

    /** So much of a name that is too long is told. */
    private static final int TOLD = 60;

    private EntryName() {}

    /** A name short enough to keep; the number tells it from others that begin alike. */
    static String shortened(String name, int number) {
        return name.substring(0, TOLD) + "… (entry " + number + ")";
    }

    /** The name, taken as UTF-8 where its bytes are that, else byte by byte. */
    static String of(ZipEntry entry) {
        String name = entry.getName();
        if (name.chars().anyMatch(c -> c > 0xff)) {
            return name;
        }
        try {
            return StandardCharsets.UTF_8
                    .newDecoder()
                    .decode(ByteBuffer.wrap(name.getBytes(StandardCharsets.ISO_8859_1)))
                    .toString();
        } catch (CharacterCodingException e) {
            return name;
        }
    }

    /** True for an absolute name, one with a drive letter, and one with a step up. */
    static boolean leavesFolder(String name) {
        return name.startsWith("/")
                || name.startsWith("\\")
                || DRIVE.matcher(name).matches()
                || parts(name).contains("..");
    }

    /** True for what a desktop hides: names with a leading dot, and the resource entries some archivers add. */
    static boolean isHidden(String name) {
        return !leavesFolder(name)
                && parts(name).stream().anyMatch(p -> p.equals("__MACOSX") || (p.startsWith(".") && p.length() > 1));
    }

    private static List<String> parts(String name) {
        return Arrays.asList(name.replace('\\', '/').split("/", -1));
    }
}
