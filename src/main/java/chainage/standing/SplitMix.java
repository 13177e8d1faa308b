package chainage.standing;

/**
 * A stream of numbers that look drawn at random and follow from a seed alone, the same on every machine and in every
 * version of the platform. SplitMix64: Steele, Lea and Flood, "Fast splittable pseudorandom number generators", OOPSLA
 * 2014, with Stafford's variant 13 of the final mix, as the platform's own splittable generator has it.
 */
final class SplitMix {
    private static final long STEP = 0x9e3779b97f4a7c15L;

    private long state;

    SplitMix(long seed) {
        state = seed;
    }

    long next() {
        state += STEP;
        long z = state;
        z = (z ^ (z >>> 30)) * 0xbf58476d1ce4e5b9L;
        z = (z ^ (z >>> 27)) * 0x94d049bb133111ebL;
        return z ^ (z >>> 31);
    }

    /** From 0 to below 1, in steps of 2⁻⁵³. */
    double uniform() {
        return (next() >>> 11) * 0x1p-53;
    }
}
