package chainage.loopback;

/** Why somebody is turned away. */
public enum TurnedAway {
    /** The address is not the one that was handed out. */
    HOST(421),
    /** Another page sent it. */
    ORIGIN(403),
    /** The key was used, or was never one. */
    KEY(403),
    /** There is no key and no session. */
    SESSION(403),
    /** The form is none of this session. */
    TOKEN(403),
    PLACE(404),
    METHOD(405),
    /** The body is longer than any form. */
    SIZE(413),
    /** The body is no form. */
    FORM(400);

    private final int status;

    TurnedAway(int status) {
        this.status = status;
    }

    /** The status of HTTP. */
    public int status() {
        return status;
    }
}
