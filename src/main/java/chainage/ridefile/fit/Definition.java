package chainage.ridefile.fit;

import com.garmin.fit.EventMesg;
import com.garmin.fit.Fit;
import com.garmin.fit.MesgNum;
import org.jspecify.annotations.Nullable;

/**
 * How the messages of one local number are laid out: a definition message of the protocol. Every field is a number, a
 * size in bytes and a base type; developer fields follow, of which only the size matters here.
 */
final class Definition {
    private static final int FIELDS = 256;
    private static final Slot[] NOTHING_NEEDED = new Slot[FIELDS];

    private final int kind;
    private final boolean bigEndian;
    private final @Nullable Slot[] slots;
    private int bytes;

    /**
     * Where a needed field lies, and how to read it.
     *
     * @param at first byte, from the message's first
     * @param size in bytes
     * @param signed true when the highest bit is a sign
     * @param invalid raw number that stands for none
     * @param scale the value is raw ÷ scale − offset
     * @param part bits to shift right where the field is one byte of a packed number; −1 where it is all of it
     */
    record Slot(int at, int size, boolean signed, long invalid, double scale, double offset, int part) {
        Slot partOf(int shift) {
            return new Slot(at, size, signed, invalid, scale, offset, shift);
        }
    }

    Definition(int kind, boolean bigEndian) {
        this.kind = kind;
        this.bigEndian = bigEndian;
        this.slots = NeededFields.of(kind) == null ? NOTHING_NEEDED.clone() : new Slot[FIELDS];
    }

    int kind() {
        return kind;
    }

    boolean bigEndian() {
        return bigEndian;
    }

    /** Bytes of a message, without its header. */
    int bytes() {
        return bytes;
    }

    /** Null when the messages lack the field, or nobody needs it. */
    @Nullable
    Slot slot(int field) {
        return slots[field];
    }

    /**
     * Appends a field.
     *
     * @return false when the field is needed, or a time, and not as the profile has it: the SDK knows what to make of it
     */
    boolean add(int field, int size, int type) {
        NeededFields needed = NeededFields.of(kind);
        NeededFields.Need need = needed == null ? null : needed.need(field);
        boolean time = field == Fit.FIELD_NUM_TIMESTAMP;
        boolean plain = size > 0;
        if (time || need != null) {
            int wanted = need == null ? Fit.BASE_TYPE_UINT32 : need.type();
            Slot slot = slot(wanted, size, need);
            plain &= type == wanted && slots[field] == null && slot != null;
            slots[field] = slot;
        }
        bytes += size;
        if (kind == MesgNum.EVENT && field == EventMesg.DataFieldNum) {
            gears();
        }
        return plain;
    }

    /** Appends a field of a developer's own. */
    boolean addForeign(int size) {
        bytes += size;
        return size > 0;
    }

    /** Null where the size is not that of one value. */
    private @Nullable Slot slot(int type, int size, NeededFields.@Nullable Need need) {
        double scale = need == null ? 1 : need.scale();
        double offset = need == null ? 0 : need.offset();
        return switch (type) {
            case Fit.BASE_TYPE_ENUM, Fit.BASE_TYPE_UINT8 -> number(size, 1, false, 0xFF, scale, offset);
            case Fit.BASE_TYPE_SINT8 -> number(size, 1, true, 0x7F, scale, offset);
            case Fit.BASE_TYPE_UINT16 -> number(size, 2, false, 0xFFFF, scale, offset);
            case Fit.BASE_TYPE_UINT16Z -> number(size, 2, false, 0, scale, offset);
            case Fit.BASE_TYPE_UINT32 -> number(size, 4, false, 0xFFFF_FFFFL, scale, offset);
            case Fit.BASE_TYPE_SINT32 -> number(size, 4, true, 0x7FFF_FFFF, scale, offset);
            case Fit.BASE_TYPE_UINT32Z -> number(size, 4, false, 0, scale, offset);
            case Fit.BASE_TYPE_STRING -> number(size, size, false, 0, scale, offset);
            default -> null;
        };
    }

    private @Nullable Slot number(int size, int wanted, boolean signed, long invalid, double scale, double offset) {
        return size == wanted ? new Slot(bytes, size, signed, invalid, scale, offset, -1) : null;
    }

    /** A gear change packs both positions and both teeth into the event's data, a byte each, rear first. */
    private void gears() {
        Slot data = slots[EventMesg.DataFieldNum];
        if (data != null) {
            slots[EventMesg.RearGearNumFieldNum] = data.partOf(0);
            slots[EventMesg.RearGearFieldNum] = data.partOf(8);
            slots[EventMesg.FrontGearNumFieldNum] = data.partOf(16);
            slots[EventMesg.FrontGearFieldNum] = data.partOf(24);
        }
    }
}
