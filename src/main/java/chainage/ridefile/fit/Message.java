package chainage.ridefile.fit;

import com.garmin.fit.Mesg;

/**
 * One message of a FIT file. Numbers of messages and fields are the profile's. Only good until the next message: a
 * listener keeps values, never the message.
 */
interface Message {
    /** Which kind of message it is. */
    int kind();

    /** A field's first value with the profile's scale and offset applied; NaN when absent or marked invalid. */
    double number(int field);

    /** The same for a field without a scale; −1 when absent or marked invalid. */
    long whole(int field);

    /** A field's first text, stripped; empty when absent. */
    String text(int field);

    /** Takes messages in file order. */
    @FunctionalInterface
    interface Listener {
        void on(Message m);
    }

    /** A message that the SDK decoded. */
    record OfSdk(Mesg mesg) implements Message {
        private static final int MAIN = com.garmin.fit.Fit.SUBFIELD_INDEX_MAIN_FIELD;

        @Override
        public int kind() {
            return mesg.getNum();
        }

        @Override
        public double number(int field) {
            Double value = mesg.getFieldDoubleValue(field, 0, MAIN);
            return value == null ? Double.NaN : value;
        }

        @Override
        public long whole(int field) {
            Long value = mesg.getFieldLongValue(field, 0, MAIN);
            return value == null ? -1 : value;
        }

        @Override
        public String text(int field) {
            String value = mesg.getFieldStringValue(field, 0, MAIN);
            return value == null ? "" : value.strip();
        }
    }
}
