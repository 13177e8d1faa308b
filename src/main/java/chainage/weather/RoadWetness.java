package chainage.weather;

/**
 * The road under a ride, as far as weather records tell. The three shares are of the ride's metres (of its time where
 * no metres are known) and sum to 1.
 *
 * @param wetShare 0 to 1
 * @param dampShare 0 to 1
 * @param dryShare 0 to 1
 * @param beforeMm water fallen in the six hours before, at the station that counts most
 * @param duringMm water fallen during the ride, at the same station
 * @param knownShare share of the ride that the records speak for; 0.5 or more
 * @param reason what it rests on
 */
public record RoadWetness(
        double wetShare,
        double dampShare,
        double dryShare,
        double beforeMm,
        double duringMm,
        double knownShare,
        FilmReason reason) {}
