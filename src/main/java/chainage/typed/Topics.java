package chainage.typed;

import chainage.host.Resource;
import java.util.LinkedHashMap;
import java.util.Map;

/** What can be explained. */
public final class Topics {
    private static final String FOLDER = "/chainage/explain/";

    private Topics() {}

    /** Topics by name, each with what it is about; every one has a text of its own beside the list. */
    public static Map<String, String> all() {
        Map<String, String> topics = new LinkedHashMap<>();
        for (String line : Resource.text(FOLDER + "topics.tsv").lines().toList()) {
            int tab = line.indexOf('\t');
            topics.put(line.substring(0, tab), line.substring(tab + 1));
        }
        return topics;
    }

    /** The text of one. */
    public static String text(String topic) {
        return Resource.text(FOLDER + topic + ".txt");
    }
}
