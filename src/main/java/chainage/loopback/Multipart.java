package chainage.loopback;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A form with files in it: {@code multipart/form-data} of RFC 7578, its parts as in RFC 2046, section 5.1, names escaped
 * as the HTML Standard of WHATWG has it ("multipart form data").
 *
 * @param fields by name, with their values in the order sent
 * @param files in the order sent, without those that were left empty and have no name
 */
record Multipart(Map<String, List<String>> fields, List<Upload> files) {
    /** More parts than anyone chooses; our choice. */
    private static final int PARTS = 10_000;

    /** Bytes of a part's header. A file's name with all its folders is far shorter. Our choice. */
    private static final int HEAD = 8192;

    private static final Pattern TYPE =
            Pattern.compile("(?i)multipart/form-data *; *boundary=(\"?)([0-9A-Za-z'()+_,./:=?-]{1,70})\\1 *");

    private static final Pattern NAMED = Pattern.compile(
            "(?im)^content-disposition: *form-data; *name=\"([^\"]*)\"(?:; *filename=\"([^\"]*)\")? *$");

    private static final byte[] END_OF_HEAD = bytes("\r\n\r\n");

    Multipart {
        fields = Map.copyOf(fields);
        files = List.copyOf(files);
    }

    /** Whether a form of this type has parts. */
    static boolean is(String type) {
        return TYPE.matcher(type).matches();
    }

    /**
     * Its parts.
     *
     * @param most bytes of a field that is no file
     * @throws Refused when it is no such form, or is cut off
     */
    static Multipart parse(String type, byte[] form, int most) throws Refused {
        Matcher typed = TYPE.matcher(type);
        if (!typed.matches()) {
            throw new Refused(TurnedAway.FORM);
        }
        byte[] delimiter = bytes("\r\n--" + typed.group(2));
        Map<String, List<String>> fields = new LinkedHashMap<>();
        List<Upload> files = new ArrayList<>();
        // The first one has no end of a line before it.
        int at = delimiter.length - 2;
        check(startsWith(form, 0, bytes("--" + typed.group(2))));
        for (int parts = 0; !startsWith(form, at, bytes("--")); parts++) {
            check(parts < PARTS && startsWith(form, at, bytes("\r\n")));
            // From here, so that a part without any header is one as well.
            int body = indexOf(form, at, END_OF_HEAD);
            check(body >= 0 && body - at <= HEAD);
            Matcher named = NAMED.matcher(new String(form, at, body - at, StandardCharsets.UTF_8));
            check(named.find());
            body += END_OF_HEAD.length;
            int end = indexOf(form, body, delimiter);
            check(end >= 0);
            String file = named.group(2);
            if (file == null) {
                check(end - body <= most);
                fields.computeIfAbsent(unescaped(named.group(1)), n -> new ArrayList<>())
                        .add(new String(form, body, end - body, StandardCharsets.UTF_8));
            } else if (!file.isEmpty() || end > body) {
                files.add(new Upload(unescaped(file), form, body, end - body));
            }
            at = end + delimiter.length;
        }
        return new Multipart(fields, files);
    }

    private static void check(boolean holds) throws Refused {
        if (!holds) {
            throw new Refused(TurnedAway.FORM);
        }
    }

    private static String unescaped(String name) {
        return name.replace("%22", "\"").replace("%0D", "\r").replace("%0A", "\n");
    }

    private static byte[] bytes(String text) {
        return text.getBytes(StandardCharsets.US_ASCII);
    }

    private static boolean startsWith(byte[] all, int from, byte[] sought) {
        for (int i = 0; i < sought.length; i++) {
            if (from + i >= all.length || all[from + i] != sought[i]) {
                return false;
            }
        }
        return true;
    }

    /** All that is sought here begins with the end of a line, which is rare in what a form holds. */
    private static int indexOf(byte[] all, int from, byte[] sought) {
        for (int i = from; i <= all.length - sought.length; i++) {
            if (all[i] == sought[0] && startsWith(all, i, sought)) {
                return i;
            }
        }
        return -1;
    }
}
