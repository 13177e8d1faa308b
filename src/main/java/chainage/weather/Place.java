package chainage.weather;

/**
 * A place on the ground.
 *
 * @param latitude degrees, −90 to 90; NaN when not known
 * @param longitude degrees, −180 to 180; NaN when not known
 */
public record Place(double latitude, double longitude) {
    /** No place: such a record is taken to hold wherever the rider rides. */
    public static final Place UNKNOWN = new Place(Double.NaN, Double.NaN);

    /** Mean radius of the Earth, IUGG. */
    private static final double RADIUS_METRES = 6_371_008.8;

    public Place {
        if (Double.isNaN(latitude) != Double.isNaN(longitude) || Math.abs(latitude) > 90 || Math.abs(longitude) > 180) {
            throw new IllegalArgumentException("place " + latitude + ", " + longitude);
        }
    }

    /** For example {@code 48.1,11.5}, to be kept; empty when not known. */
    public String text() {
        return known() ? latitude + "," + longitude : "";
    }

    /** What such a text says; {@link #UNKNOWN} for an empty one. */
    public static Place of(String text) {
        int comma = text.indexOf(',');
        return comma < 0
                ? UNKNOWN
                : new Place(
                        Double.parseDouble(text.substring(0, comma)), Double.parseDouble(text.substring(comma + 1)));
    }

    public boolean known() {
        return !Double.isNaN(latitude);
    }

    /**
     * Metres on a sphere, at most 0.6 % from those on the ellipsoid: 0.2 km in 40, less than a station's weather
     * changes over. NaN when either place is not known.
     */
    public double metresTo(Place other) {
        double phi = Math.toRadians(latitude);
        double otherPhi = Math.toRadians(other.latitude);
        double sinPhi = Math.sin((otherPhi - phi) / 2);
        double sinLambda = Math.sin(Math.toRadians(other.longitude - longitude) / 2);
        double h = sinPhi * sinPhi + Math.cos(phi) * Math.cos(otherPhi) * sinLambda * sinLambda;
        return 2 * RADIUS_METRES * Math.asin(Math.min(1, Math.sqrt(h)));
    }
}
