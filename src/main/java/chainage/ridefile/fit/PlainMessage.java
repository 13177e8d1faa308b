package chainage.ridefile.fit;

import chainage.ridefile.fit.Definition.Slot;
import com.garmin.fit.Fit;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;

/** A message read straight from the file's bytes, a field when it is asked for. One object stands for all in turn. */
final class PlainMessage implements Message {
    private static final long NO_TIME = -1;

    private final byte[] content;
    private Definition definition = new Definition(-1, false);
    private int at;
    private long time;

    PlainMessage(byte[] content) {
        this.content = content;
    }

    /** Stands for the message whose first byte behind its header is at {@code first}. */
    void set(Definition layout, int first) {
        set(layout, first, NO_TIME);
    }

    /** The same, with a time that stood in its header. */
    void set(Definition layout, int first, long headerTime) {
        definition = layout;
        at = first;
        time = headerTime;
    }

    @Override
    public int kind() {
        return definition.kind();
    }

    @Override
    public double number(int field) {
        Slot slot = definition.slot(field);
        if (slot == null) {
            return field == Fit.FIELD_NUM_TIMESTAMP && time != NO_TIME ? time : Double.NaN;
        }
        long raw = raw(slot);
        return raw == slot.invalid() ? Double.NaN : value(slot, raw) / slot.scale() - slot.offset();
    }

    @Override
    public long whole(int field) {
        Slot slot = definition.slot(field);
        if (slot == null) {
            return field == Fit.FIELD_NUM_TIMESTAMP ? time : -1;
        }
        long raw = raw(slot);
        return raw == slot.invalid() ? -1 : value(slot, raw);
    }

    @Override
    public String text(int field) {
        Slot slot = definition.slot(field);
        if (slot == null) {
            return "";
        }
        int from = at + slot.at();
        int to = from;
        while (to < from + slot.size() && content[to] != 0) {
            to++;
        }
        try {
            return StandardCharsets.UTF_8
                    .newDecoder()
                    .onMalformedInput(CodingErrorAction.IGNORE)
                    .onUnmappableCharacter(CodingErrorAction.IGNORE)
                    .decode(ByteBuffer.wrap(content, from, to - from))
                    .toString()
                    .strip();
        } catch (CharacterCodingException e) {
            throw new UncheckedIOException("malformed input is ignored", e);
        }
    }

    private static long value(Slot slot, long raw) {
        return slot.part() < 0 ? raw : (raw >>> slot.part()) & 0xFF;
    }

    private long raw(Slot slot) {
        int first = at + slot.at();
        int last = first + slot.size() - 1;
        boolean bigEndian = definition.bigEndian();
        int raw = switch (slot.size()) {
            case 1 -> content[first] & 0xFF;
            case 2 -> bigEndian ? pair(first, last) : pair(last, first);
            default ->
                bigEndian
                        ? pair(first, first + 1) << 16 | pair(last - 1, last)
                        : pair(last, last - 1) << 16 | pair(first + 1, first);
        };
        int unused = 32 - 8 * slot.size();
        return slot.signed() ? raw << unused >> unused : raw & 0xFFFF_FFFFL;
    }

    private int pair(int high, int low) {
        return (content[high] & 0xFF) << 8 | (content[low] & 0xFF);
    }
}
