package chainage.ridefile.fit;

/** Field numbers that mean the same in every message. */
final class Mesg253 {
    static final int TIMESTAMP = 253;

    private Mesg253() {}
}
