package chainage.course;

/**
 * What a speed takes at the wheel, watts.
 *
 * @param air against the air, spokes included
 * @param rolling of the tyres
 * @param bearings of the wheels
 * @param climbing against gravity; negative downhill
 */
public record Powers(double air, double rolling, double bearings, double climbing) {
    public double total() {
        return air + rolling + bearings + climbing;
    }
}
