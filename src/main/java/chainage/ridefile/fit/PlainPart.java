package chainage.ridefile.fit;

import com.garmin.fit.DeveloperDataIdMesg;
import com.garmin.fit.FieldDescriptionMesg;
import com.garmin.fit.Fit;
import com.garmin.fit.MesgNum;
import org.jspecify.annotations.Nullable;

/**
 * A part that we read ourselves: whole, its checksum right, and every needed field as the profile has it. Read by the
 * protocol's public description: a part is a row of messages, each behind a byte that says whether it defines the layout
 * of a local number or is one of that layout.
 *
 * <p>The whole part is walked once before the first message goes out, so what is not understood is found while it still
 * can be left to the SDK. That costs little: a walk looks at each message's first byte only.
 */
final class PlainPart {
    private static final int LOCAL_NUMBERS = 16;
    private static final int CRC_BYTES = 2;

    private final byte[] content;
    private final int from;
    private final int to;
    private @Nullable Definition[] definitions = new Definition[LOCAL_NUMBERS];
    private int at;
    private long time;

    private PlainPart(byte[] content, FitParts.Part part) {
        this.content = content;
        this.from = part.from() + (content[part.from()] & 0xFF);
        this.to = part.to() - CRC_BYTES;
    }

    /** Null when the part is for the SDK to read. */
    static @Nullable PlainPart of(byte[] content, FitParts.Part part) {
        int header = content[part.from()];
        if (!part.sizeHolds()
                || (header != 12 && header != 14)
                || !FitParts.newerProtocol(content, part).isEmpty()
                || Crc16.of(content, part.from(), part.to()) != 0) {
            return null;
        }
        PlainPart plain = new PlainPart(content, part);
        return plain.walk(m -> {}) ? plain : null;
    }

    void run(Message.Listener listener) {
        walk(listener);
    }

    /** Hands on all messages; false at what is not understood. */
    private boolean walk(Message.Listener listener) {
        PlainMessage message = new PlainMessage(content);
        definitions = new Definition[LOCAL_NUMBERS];
        time = 0;
        at = from;
        while (at < to) {
            int header = content[at++];
            if (header < 0) {
                Definition layout = definitions[header >> 5 & 3];
                if (layout == null || layout.slot(Fit.FIELD_NUM_TIMESTAMP) != null) {
                    return false;
                }
                // The five low bits of the time; less than those of the time before means that they went round once.
                time += (header - time) & 0x1F;
                message.set(layout, at, time);
                if (!pass(layout) || lacksNumber(message)) {
                    return false;
                }
                listener.on(message);
            } else if ((header & 0x40) != 0) {
                if (!define(header & 0xF, (header & 0x20) != 0)) {
                    return false;
                }
            } else {
                Definition layout = definitions[header & 0xF];
                if (layout == null) {
                    return false;
                }
                message.set(layout, at);
                if (!pass(layout) || lacksNumber(message)) {
                    return false;
                }
                long stated = message.whole(Fit.FIELD_NUM_TIMESTAMP);
                time = stated < 0 ? time : stated;
                listener.on(message);
            }
        }
        return true;
    }

    private boolean pass(Definition layout) {
        at += layout.bytes();
        return at <= to;
    }

    /** True where a developer's message does not say which developer or field it speaks of: there the SDK stops. */
    private static boolean lacksNumber(Message m) {
        return switch (m.kind()) {
            case MesgNum.DEVELOPER_DATA_ID -> m.whole(DeveloperDataIdMesg.DeveloperDataIndexFieldNum) < 0;
            case MesgNum.FIELD_DESCRIPTION ->
                m.whole(FieldDescriptionMesg.DeveloperDataIndexFieldNum) < 0
                        || m.whole(FieldDescriptionMesg.FieldDefinitionNumberFieldNum) < 0;
            default -> false;
        };
    }

    /** A reserved byte, the order of bytes, the kind of message, and three bytes a field. */
    private boolean define(int local, boolean foreignFields) {
        if (at + 5 > to || (content[at + 1] != 0 && content[at + 1] != 1)) {
            return false;
        }
        boolean bigEndian = content[at + 1] == 1;
        int first = content[at + 2] & 0xFF;
        int second = content[at + 3] & 0xFF;
        int fields = content[at + 4] & 0xFF;
        Definition layout = new Definition(bigEndian ? first << 8 | second : second << 8 | first, bigEndian);
        definitions[local] = layout;
        at += 5;
        if (at + 3 * fields > to) {
            return false;
        }
        boolean plain = true;
        for (int i = 0; i < fields; i++, at += 3) {
            plain &= layout.add(content[at] & 0xFF, content[at + 1] & 0xFF, content[at + 2] & 0xFF);
        }
        if (foreignFields && plain) {
            int count = at < to ? content[at++] & 0xFF : 0xFF;
            if (at + 3 * count > to) {
                return false;
            }
            for (int i = 0; i < count; i++, at += 3) {
                plain &= layout.addForeign(content[at + 1] & 0xFF);
            }
        }
        return plain;
    }
}
