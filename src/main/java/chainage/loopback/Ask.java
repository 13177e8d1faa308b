package chainage.loopback;

import java.util.List;
import java.util.Map;

/**
 * What a browser asks for.
 *
 * @param change true where it may change something: it was sent as a form from one of our own pages
 * @param place the last part of the path, lower-case letters; empty for the first page
 * @param fields of the form or the address, by name, in the order sent
 * @param files sent with the form, in their order
 * @param token what a form must send along
 */
public record Ask(boolean change, String place, Map<String, List<String>> fields, List<Upload> files, String token) {
    /** The hidden field that the token is sent in. */
    public static final String TOKEN = "token";

    public Ask {
        fields = Map.copyOf(fields);
        files = List.copyOf(files);
    }

    /** The first value of a field; empty where there is none. */
    public String field(String name) {
        List<String> values = fields.getOrDefault(name, List.of());
        return values.isEmpty() ? "" : values.get(0);
    }
}
