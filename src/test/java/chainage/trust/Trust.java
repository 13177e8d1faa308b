package chainage.trust;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * Makes all trials and prints one table. Arguments: program, folder to work in, {@code short} or {@code long}, seed, and
 * which trials ({@code all}, or names with commas). Ends with 1 when anything was lost.
 */
final class Trust {
    private Trust() {}

    private static Map<String, Trial> trials() {
        Map<String, Trial> trials = new LinkedHashMap<>();
        trials.put("crash", new CrashTrial());
        trials.put("disk", new DiskTrial());
        trials.put("folder", new FolderTrial());
        trials.put("together", new TogetherTrial());
        trials.put("start", new StartTrial());
        trials.put("beside", new BesideTrial());
        trials.put("poison", new PoisonTrial());
        trials.put("fuzz", new FuzzTrial());
        trials.put("reports", new Reports());
        return trials;
    }

    public static void main(String[] args) throws Exception {
        Path build = Path.of(args[1]).toAbsolutePath();
        Path work = Files.createTempDirectory(Files.createDirectories(build), "trust-");
        Site site = new Site(
                Path.of(args[0]).toAbsolutePath(), work, build, args[2].equals("long"), Long.parseLong(args[3]));
        List<Tried> table = new ArrayList<>();
        try {
            for (Map.Entry<String, Trial> trial : trials().entrySet()) {
                if (args[4].equals("all") || List.of(args[4].split(",", -1)).contains(trial.getKey())) {
                    long from = System.nanoTime();
                    table.addAll(trial.getValue().on(site));
                    Site.say("%s: %.0f s", trial.getKey(), (System.nanoTime() - from) / 1e9);
                }
            }
        } finally {
            Site.delete(work);
        }
        print(table, site);
        long lost = table.stream().mapToLong(t -> t.lost().size()).sum();
        if (lost > 0) {
            table.forEach(t -> t.lost().forEach(l -> System.out.println("LOST: " + t.what() + ": " + l)));
            throw new IOException(lost + " lost; the seed was " + site.seed());
        }
    }

    private static void print(List<Tried> table, Site site) {
        System.out.println("| what was tried | times | lost | note |");
        System.out.println("|---|---:|---|---|");
        table.forEach(t -> System.out.println(t.row()));
        System.out.println((site.isLong() ? "long" : "short") + " form, seed " + site.seed());
    }
}
