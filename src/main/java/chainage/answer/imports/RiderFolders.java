package chainage.answer.imports;

import chainage.attribution.AttributedRide;
import chainage.quantity.PlainText;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.List;
import java.util.TreeSet;

/** Folders side by side that may be a rider's or a bike's each, for rules that say so. */
final class RiderFolders {
    /** So many rules are written out; the others are like them. */
    private static final int WRITTEN = 3;

    /** More than that are no household's, nor a club's (our guess). */
    private static final int MOST = 30;

    private RiderFolders() {}

    /**
     * Their names; empty where there are not several, where they only sort by date or format, or where something tells
     * which bike a ride in them was on.
     *
     * @param roots what the rider named
     * @param files new ride files, as they were named
     * @param rides what counts of them
     */
    static List<String> of(List<String> roots, List<String> files, Collection<AttributedRide> rides) {
        if (rides.stream().anyMatch(r -> r.bikeFrom() != null && !r.byDefault())) {
            return List.of();
        }
        List<List<String>> below = new ArrayList<>();
        for (String file : files) {
            roots.stream()
                    .filter(root -> file.startsWith(root + "/") || file.startsWith(root + "!/"))
                    .findFirst()
                    .ifPresent(root -> {
                        List<String> names = Arrays.asList(file.substring(root.length())
                                .replaceFirst("^!?/", "")
                                .split("!?/"));
                        below.add(names.subList(0, names.size() - 1));
                    });
        }
        for (int level = 0; ; level++) {
            int depth = level;
            TreeSet<String> names = new TreeSet<>();
            below.stream().filter(f -> f.size() > depth).forEach(f -> names.add(f.get(depth)));
            if (names.size() != 1) {
                return names.size() > MOST || names.stream().allMatch(RiderFolders::sorts)
                        ? List.of()
                        : List.copyOf(names);
            }
        }
    }

    private static boolean sorts(String name) {
        return name.matches("(?i)[\\d._ -]+|fit|gpx|tcx");
    }

    /** How to say whose they are. */
    static List<String> rules(List<String> folders) {
        List<String> lines = new ArrayList<>();
        folders.stream()
                .limit(WRITTEN)
                .forEach(f -> lines.add("chainage assign --path " + PlainText.typed(f) + " --bike BIKE"));
        if (folders.size() > WRITTEN) {
            lines.add("and so on for " + String.join(", ", folders.subList(WRITTEN, folders.size())));
        }
        return lines;
    }
}
