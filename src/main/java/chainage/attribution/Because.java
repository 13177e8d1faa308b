package chainage.attribution;

/** What a verdict rests on. */
public sealed interface Because {
    /** Said in full, such as {@code the file says running}. */
    record Words(String text) implements Because {}

    /**
     * The file states no sport, so its speed speaks.
     *
     * @param metresPerSecond median moving speed
     * @param cyclist whether it is a cyclist's
     */
    record Speed(double metresPerSecond, boolean cyclist) implements Because {}
}
