package chainage.importer;

/**
 * Bounds against files that are not what they seem. All are our own choice: the largest ride file met is 20 MB, ride
 * files compress 2- to 20-fold.
 *
 * @param fileBytes of a file, decompressed; larger ones are refused
 * @param entryBytes of an archive's entry, decompressed; larger ones are refused
 * @param ratio how many times its compressed size a content may have
 * @param ratioFrom bytes up to which any ratio passes
 * @param entries in an archive, those of archives within it counted too
 * @param depth containers around a content: 1 for {@code a.gz}, 3 for {@code a.zip!/b.zip!/c.gz}
 * @param flightBytes of contents that wait for a decoder
 * @param flightFiles outcomes that wait for the writer
 * @param batchOutcomes in one write
 * @param batchRides in one write, about 2 KB each
 */
record UnpackLimits(
        int fileBytes,
        int entryBytes,
        int ratio,
        int ratioFrom,
        int entries,
        int depth,
        int flightBytes,
        int flightFiles,
        int batchOutcomes,
        int batchRides) {
    private static final int MB = 1 << 20;

    static final UnpackLimits USUAL =
            new UnpackLimits(128 * MB, 64 * MB, 200, 8 * MB, 200_000, 3, 32 * MB, 256, 200, 400);
}
