package chainage.course;

/**
 * A piece of road of one gradient.
 *
 * @param metres along it
 * @param gradient rise over run
 * @param headwind from ahead, metres a second; negative from behind
 */
public record Leg(double metres, double gradient, double headwind) {}
