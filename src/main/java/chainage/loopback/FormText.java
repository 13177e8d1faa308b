package chainage.loopback;

import java.io.ByteArrayOutputStream;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** Fields as browsers write them: {@code application/x-www-form-urlencoded} of the URL Standard of WHATWG, section 5.1. */
final class FormText {
    private FormText() {}

    /**
     * The fields by name, with their values in the order sent.
     *
     * @throws Refused when it is no such text, or not in UTF-8
     */
    static Map<String, List<String>> parse(String text) throws Refused {
        Map<String, List<String>> fields = new LinkedHashMap<>();
        for (String pair : text.split("&", -1)) {
            if (pair.isEmpty()) {
                continue;
            }
            int equals = pair.indexOf('=');
            String name = decoded(equals < 0 ? pair : pair.substring(0, equals));
            fields.computeIfAbsent(name, n -> new ArrayList<>())
                    .add(equals < 0 ? "" : decoded(pair.substring(equals + 1)));
        }
        return fields;
    }

    private static String decoded(String text) throws Refused {
        byte[] in = text.getBytes(StandardCharsets.UTF_8);
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        for (int i = 0; i < in.length; i++) {
            if (in[i] == '+') {
                out.write(' ');
            } else if (in[i] == '%') {
                int high = i + 2 <= in.length - 1 ? Character.digit(in[i + 1], 16) : -1;
                int low = i + 2 <= in.length - 1 ? Character.digit(in[i + 2], 16) : -1;
                if (high < 0 || low < 0) {
                    throw new Refused(TurnedAway.FORM);
                }
                out.write(high * 16 + low);
                i += 2;
            } else {
                out.write(in[i]);
            }
        }
        try {
            return StandardCharsets.UTF_8
                    .newDecoder()
                    .decode(ByteBuffer.wrap(out.toByteArray()))
                    .toString();
        } catch (CharacterCodingException e) {
            throw new Refused(TurnedAway.FORM);
        }
    }
}
