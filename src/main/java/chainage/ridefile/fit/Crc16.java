package chainage.ridefile.fit;

/**
 * The CRC of the FIT protocol: 16 bits, reflected, polynomial 0xA001, start 0. Over data with its own CRC behind it, low
 * byte first, it is 0.
 *
 * <p>Takes eight bytes a step, by a table for each place: the bytes' shares do not depend on each other, so that the
 * look-ups need not wait for one another.
 */
final class Crc16 {
    private static final int STEP = 8;
    private static final char[][] TABLES = tables();

    private Crc16() {}

    static int of(byte[] content, int from, int to) {
        char[] last = TABLES[0];
        char[] t1 = TABLES[1];
        char[] t2 = TABLES[2];
        char[] t3 = TABLES[3];
        char[] t4 = TABLES[4];
        char[] t5 = TABLES[5];
        char[] t6 = TABLES[6];
        char[] first = TABLES[7];
        int crc = 0;
        int i = from;
        for (; i <= to - STEP; i += STEP) {
            crc = first[(content[i] ^ crc) & 0xFF]
                    ^ t6[(content[i + 1] ^ crc >>> 8) & 0xFF]
                    ^ t5[content[i + 2] & 0xFF]
                    ^ t4[content[i + 3] & 0xFF]
                    ^ t3[content[i + 4] & 0xFF]
                    ^ t2[content[i + 5] & 0xFF]
                    ^ t1[content[i + 6] & 0xFF]
                    ^ last[content[i + 7] & 0xFF];
        }
        for (; i < to; i++) {
            crc = crc >>> 8 ^ last[(content[i] ^ crc) & 0xFF];
        }
        return crc;
    }

    /** For each place, counted from the last: what a byte there adds to the CRC after the whole step. */
    private static char[][] tables() {
        char[][] tables = new char[STEP][256];
        for (int b = 0; b < 256; b++) {
            int crc = b;
            for (int bit = 0; bit < 8; bit++) {
                crc = (crc & 1) == 0 ? crc >>> 1 : crc >>> 1 ^ 0xA001;
            }
            tables[0][b] = (char) crc;
        }
        for (int place = 1; place < STEP; place++) {
            for (int b = 0; b < 256; b++) {
                int crc = tables[place - 1][b];
                tables[place][b] = (char) (crc >>> 8 ^ tables[0][crc & 0xFF]);
            }
        }
        return tables;
    }
}
