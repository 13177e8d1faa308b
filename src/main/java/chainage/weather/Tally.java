package chainage.weather;

/**
 * What became of a text.
 *
 * @param read reports or rows found in it
 * @param kept of those, how many gave an observation
 * @param bad of those, how many were handed out as bad lines; the rest held nothing
 */
public record Tally(long read, long kept, long bad) {}
