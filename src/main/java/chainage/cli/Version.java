package chainage.cli;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.jar.Manifest;
import picocli.CommandLine.IVersionProvider;

/** The version and its day, which the build wrote into the manifest. */
final class Version implements IVersionProvider {
    @Override
    public String[] getVersion() {
        String v = Version.class.getPackage().getImplementationVersion();
        return new String[] {"chainage " + (v == null ? "development build" : v)};
    }

    /** The day of the release as {@code 2026-11-27}; empty for a development build. */
    static String day() {
        try (InputStream in = Version.class.getResourceAsStream("/META-INF/MANIFEST.MF")) {
            String day =
                    in == null ? null : new Manifest(in).getMainAttributes().getValue("Release-Date");
            return day == null ? "" : day;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
