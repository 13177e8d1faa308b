package chainage.loopback;

import java.io.IOException;
import java.io.InputStream;
import java.util.List;
import java.util.Map;

/** Bytes as a form with files in it, for tests of other packages. */
public final class FormBytes {
    private static final String TYPE = "multipart/form-data; boundary=seam";
    private static final int MOST = 1000;

    private FormBytes() {}

    /** Reads them: a form whose parts lie within it, or a refusal. */
    public static void read(byte[] content) {
        try {
            Multipart form = Multipart.parse(TYPE, content, MOST);
            long size = 0;
            for (Map.Entry<String, List<String>> field : form.fields().entrySet()) {
                size += field.getValue().stream().mapToInt(String::length).sum();
            }
            for (Upload file : form.files()) {
                try (InputStream in = file.open()) {
                    long read = in.transferTo(java.io.OutputStream.nullOutputStream());
                    if (read != file.size()) {
                        throw new AssertionError(read + " bytes of " + file.size());
                    }
                    size += read;
                }
            }
            if (size > content.length) {
                throw new AssertionError(size + " bytes out of " + content.length);
            }
        } catch (Refused e) {
            if (e.why() != TurnedAway.FORM) {
                throw new AssertionError(e);
            }
        } catch (IOException e) {
            throw new AssertionError(e);
        }
    }
}
