package chainage.importer;

/**
 * What tells without reading whether a file is still the one it was.
 *
 * @param path absolute, or the name of a file that was handed over; an archive's entry as {@code archive.zip!/entry}
 * @param size bytes; for an entry the size it claims, 0 where it claims none
 * @param modifiedMillis time of last change, milliseconds since 1970 UTC; for an entry that of the archive
 */
public record SourceStamp(String path, long size, long modifiedMillis) {}
