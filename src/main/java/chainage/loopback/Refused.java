package chainage.loopback;

/** Somebody is turned away. */
final class Refused extends Exception {
    private static final long serialVersionUID = 1L;

    private final Refusal why;

    Refused(Refusal why) {
        super(why.name(), null, false, false);
        this.why = why;
    }

    Refusal why() {
        return why;
    }
}
