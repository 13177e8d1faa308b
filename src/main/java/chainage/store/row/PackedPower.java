package chainage.store.row;

import chainage.ride.PowerTrace;
import chainage.ride.PowerTrace.Minute;
import java.io.ByteArrayOutputStream;
import java.util.ArrayList;
import java.util.List;

/**
 * A trace of power in as few bytes as its changes need: some two a minute. Watts and cadence are kept as their
 * difference from the minute before, in a code that is short for small numbers (Rice's, with the parameter that suits
 * this trace best); that a minute is whole and the cranks turned all through it takes a bit each.
 */
final class PackedPower {
    private static final int FIRST_BITS = 32;
    private static final int COUNT_BITS = 13;
    private static final int PARAMETER_BITS = 4;
    private static final int SECONDS_BITS = 6;
    /** After so many ones the number follows as it is. */
    private static final int LONGEST_QUOTIENT = 12;

    private static final int PLAIN_BITS = 13;
    private static final int MOST_PARAMETER = 10;

    private PackedPower() {}

    static byte[] pack(PowerTrace trace) {
        int watts = best(differences(trace.minutes(), true));
        int rpm = best(differences(trace.minutes(), false));
        Writer out = new Writer();
        out.bits(trace.first(), FIRST_BITS);
        out.bits(trace.minutes().size(), COUNT_BITS);
        out.bits(watts, PARAMETER_BITS);
        out.bits(rpm, PARAMETER_BITS);
        int lastWatts = 0;
        int lastRpm = 0;
        for (Minute m : trace.minutes()) {
            out.unless(m.seconds(), 60);
            if (m.seconds() == 0) {
                continue;
            }
            out.unless(m.turning(), m.seconds());
            out.rice(m.watts() - lastWatts, watts);
            lastWatts = m.watts();
            if (m.steady()) {
                out.rice(m.rpm() - lastRpm, rpm);
                lastRpm = m.rpm();
            }
        }
        return out.done();
    }

    /**
     * The trace again.
     *
     * @throws IllegalArgumentException when it is none
     */
    static PowerTrace unpack(byte[] packed) {
        Reader in = new Reader(packed);
        long first = in.bits(FIRST_BITS);
        int count = (int) in.bits(COUNT_BITS);
        int watts = (int) in.bits(PARAMETER_BITS);
        int rpm = (int) in.bits(PARAMETER_BITS);
        List<Minute> minutes = new ArrayList<>();
        int lastWatts = 0;
        int lastRpm = 0;
        for (int i = 0; i < count; i++) {
            int seconds = in.unless(60);
            if (seconds == 0) {
                minutes.add(Minute.EMPTY);
                continue;
            }
            int turning = in.unless(seconds);
            lastWatts += in.rice(watts);
            boolean steady = turning >= Minute.STEADY_SECONDS;
            lastRpm += steady ? in.rice(rpm) : 0;
            minutes.add(new Minute(seconds, turning, lastWatts, steady ? lastRpm : 0));
        }
        return new PowerTrace(first, minutes);
    }

    private static List<Integer> differences(List<Minute> minutes, boolean watts) {
        List<Integer> differences = new ArrayList<>();
        int last = 0;
        for (Minute m : minutes) {
            if (watts ? m.seconds() > 0 : m.steady()) {
                int value = watts ? m.watts() : m.rpm();
                differences.add(value - last);
                last = value;
            }
        }
        return differences;
    }

    private static int best(List<Integer> differences) {
        int best = 0;
        long fewest = Long.MAX_VALUE;
        for (int k = 0; k <= MOST_PARAMETER; k++) {
            long bits = 0;
            for (int d : differences) {
                int quotient = zigzag(d) >> k;
                bits += quotient < LONGEST_QUOTIENT ? quotient + 1 + k : LONGEST_QUOTIENT + PLAIN_BITS;
            }
            if (bits < fewest) {
                fewest = bits;
                best = k;
            }
        }
        return best;
    }

    /** 0, −1, 1, −2 … as 0, 1, 2, 3 … */
    private static int zigzag(int value) {
        return (value << 1) ^ (value >> 31);
    }

    private static final class Writer {
        private final ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        private int open;
        private int filled;

        void bits(long value, int count) {
            for (int i = count - 1; i >= 0; i--) {
                open = (open << 1) | (int) ((value >>> i) & 1);
                if (++filled == Byte.SIZE) {
                    bytes.write(open);
                    filled = 0;
                    open = 0;
                }
            }
        }

        /** One bit where a number is the usual one. */
        void unless(int value, int usual) {
            bits(value == usual ? 1 : 0, 1);
            if (value != usual) {
                bits(value, SECONDS_BITS);
            }
        }

        void rice(int difference, int k) {
            int value = zigzag(difference);
            int quotient = value >> k;
            if (quotient < LONGEST_QUOTIENT) {
                bits((2L << quotient) - 2, quotient + 1);
                bits(value, k);
            } else {
                bits((1L << LONGEST_QUOTIENT) - 1, LONGEST_QUOTIENT);
                bits(value, PLAIN_BITS);
            }
        }

        byte[] done() {
            bits(0, (Byte.SIZE - filled) % Byte.SIZE);
            return bytes.toByteArray();
        }
    }

    private static final class Reader {
        private final byte[] bytes;
        private int at;

        Reader(byte[] bytes) {
            this.bytes = bytes;
        }

        long bits(int count) {
            long value = 0;
            for (int i = 0; i < count; i++, at++) {
                if (at >= bytes.length * Byte.SIZE) {
                    throw new IllegalArgumentException("its power breaks off");
                }
                int inByte = Byte.SIZE - 1 - at % Byte.SIZE;
                value = (value << 1) | ((bytes[at / Byte.SIZE] >> inByte) & 1);
            }
            return value;
        }

        int unless(int usual) {
            return bits(1) == 1 ? usual : (int) bits(SECONDS_BITS);
        }

        int rice(int k) {
            int quotient = 0;
            while (quotient < LONGEST_QUOTIENT && bits(1) == 1) {
                quotient++;
            }
            int value = (int) (quotient < LONGEST_QUOTIENT ? ((long) quotient << k) | bits(k) : bits(PLAIN_BITS));
            return (value >>> 1) ^ -(value & 1);
        }
    }
}
