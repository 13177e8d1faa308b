package chainage.importer;

import java.io.ByteArrayOutputStream;
import java.util.zip.CRC32;
import java.util.zip.Deflater;

/** Gzip streams put together member by member, by section 2.3 of RFC 1952. */
public final class Members {
    private Members() {}

    /** A member: header with these flags and these optional fields, data at a level, checksum and length. */
    public static byte[] member(byte[] content, int level, int flags, byte[] fields) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        out.writeBytes(new byte[] {0x1f, (byte) 0x8b, 8, (byte) flags, 1, 2, 3, 4, 0, 3});
        out.writeBytes(fields);
        if ((flags & 2) != 0) {
            CRC32 header = new CRC32();
            header.update(out.toByteArray());
            out.writeBytes(little(header.getValue(), 2));
        }
        Deflater deflater = new Deflater(level, true);
        deflater.setInput(content);
        deflater.finish();
        byte[] data = new byte[content.length + content.length / 1000 + 100];
        out.write(data, 0, deflater.deflate(data));
        deflater.end();
        CRC32 sum = new CRC32();
        sum.update(content);
        out.writeBytes(little(sum.getValue(), 4));
        out.writeBytes(little(content.length, 4));
        return out.toByteArray();
    }

    static byte[] member(byte[] content) {
        return member(content, 6, 0, new byte[0]);
    }

    static byte[] little(long number, int bytes) {
        byte[] all = new byte[bytes];
        for (int i = 0; i < bytes; i++) {
            all[i] = (byte) (number >> (8 * i));
        }
        return all;
    }

    /** One behind the other. */
    public static byte[] joined(byte[]... parts) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        for (byte[] part : parts) {
            out.writeBytes(part);
        }
        return out.toByteArray();
    }
}
