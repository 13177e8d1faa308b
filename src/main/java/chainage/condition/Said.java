package chainage.condition;

/**
 * What one piece of evidence says of the road.
 *
 * @param evidence its kind
 * @param value the wetness or the grit
 * @param why in words, such as {@code weather in the file: light rain}
 */
public record Said<T>(Evidence evidence, T value, String why) {}
