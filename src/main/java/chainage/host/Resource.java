package chainage.host;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;

/** What lies beside the classes in the program's file. */
public final class Resource {
    private Resource() {}

    /**
     * A resource as a text.
     *
     * @param name its whole path, such as {@code /chainage/exposure/factors.tsv}
     */
    public static String text(String name) {
        try (InputStream in = open(name)) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new AssertionError("unreadable resource " + name, e);
        }
    }

    /** A resource as bytes. */
    public static InputStream open(String name) {
        InputStream in = Resource.class.getResourceAsStream(name);
        if (in == null) {
            throw new AssertionError("no resource " + name);
        }
        return in;
    }
}
