package chainage.loopback;

/** Somebody is turned away. */
final class Refused extends Exception {
    private static final long serialVersionUID = 1L;

    private final TurnedAway why;

    Refused(TurnedAway why) {
        super(why.name(), null, false, false);
        this.why = why;
    }

    TurnedAway why() {
        return why;
    }
}
