package chainage.weather;

/**
 * What the water on a road rests on, at the station that counts most.
 *
 * @param beforeMm water fallen in the six hours before
 * @param duringMm water fallen during the ride
 * @param earlierMm water fallen before those six hours, as far as it is looked back
 * @param hoursSinceRain from the end of that to the start of the ride
 * @param snow whether snow was among it
 * @param judged true for amounts judged from words such as "light rain", false for measured ones
 * @param frozen whether snow or ice lay at the start
 * @param before whether the hours before the ride are known
 * @param station its name; empty where the record has none
 * @param metres from the road; NaN where the record states no place
 * @param others how many more stations are heard
 * @param snowAt a station among these others that had snow or ice, where the one that counts most had none; else empty
 */
public record FilmReason(
        double beforeMm,
        double duringMm,
        double earlierMm,
        double hoursSinceRain,
        boolean snow,
        boolean judged,
        boolean frozen,
        boolean before,
        String station,
        double metres,
        int others,
        String snowAt) {

    /** Whether any station that is heard knows of snow or ice on the road. */
    public boolean frost() {
        return snow || frozen || !snowAt.isEmpty();
    }
}
