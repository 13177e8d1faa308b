package chainage.condition;

/**
 * What one piece of evidence says of the road.
 *
 * @param evidence its kind
 * @param value the wetness or the grit
 * @param why what it rests on
 */
public record Said<T>(Evidence evidence, T value, Reason why) {}
