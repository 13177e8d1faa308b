package chainage.importer;

import java.util.Locale;

/**
 * Where a content stands: a file, or an entry of an archive.
 *
 * @param file name as the rider gave it
 * @param stamp path, size, time of change
 */
record FoundAt(String file, SourceStamp stamp) {
    private static final String INSIDE = "!/";

    FoundAt entry(String name, long size) {
        return new FoundAt(
                file + INSIDE + name, new SourceStamp(stamp.path() + INSIDE + name, size, stamp.modifiedMillis()));
    }

    /** The same name for a second entry that bears it. */
    FoundAt again(int time) {
        String suffix = " (" + time + ")";
        return new FoundAt(file + suffix, new SourceStamp(stamp.path() + suffix, stamp.size(), stamp.modifiedMillis()));
    }

    /** True when the name promises a ride file, compressed or not. */
    boolean promisesRide() {
        String name = file.toLowerCase(Locale.ROOT);
        if (name.endsWith(".gz")) {
            name = name.substring(0, name.length() - 3);
        }
        return name.endsWith(".fit") || name.endsWith(".gpx") || name.endsWith(".tcx");
    }
}
