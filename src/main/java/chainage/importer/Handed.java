package chainage.importer;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

/**
 * A file that was handed over and lies on no disk of ours.
 *
 * @param name as whoever handed it over names it: any text, perhaps with folders before it
 * @param size bytes
 */
public record Handed(String name, long size, Opening opening) {
    /** Letters; longer names than file systems have are cut at their beginning. */
    private static final int LONGEST = 1000;

    /**
     * As they are to be read. Each goes by its name, with the moment it was handed over for its time of change, so that
     * another one of that name and size is not taken for the same.
     */
    static List<Walk.Found> found(List<Handed> files, Instant when) {
        Map<String, Integer> names = new HashMap<>();
        List<Walk.Found> found = new ArrayList<>();
        for (Handed f : files) {
            String name = f.relative();
            FoundAt place = new FoundAt(name, new SourceStamp(name, f.size(), when.toEpochMilli()));
            int times = names.merge(name, 1, Integer::sum);
            found.add(new Walk.Found(times == 1 ? place : place.again(times), f.opening(), null, null));
        }
        return found;
    }

    /** Its name as a path that begins nowhere on our disk, by which it is told from one that does. */
    private String relative() {
        String path = Arrays.stream(name.replaceAll("\\p{Cntrl}", " ").split("[/\\\\]"))
                .filter(step -> !step.isBlank() && !step.matches("\\.{1,2}|[A-Za-z]:"))
                .collect(Collectors.joining("/"));
        return path.isEmpty() ? "file" : path.substring(Math.max(0, path.length() - LONGEST));
    }
}
