package chainage.trust;

import com.fasterxml.jackson.jr.ob.JSON;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** What the build says of the tests and of the parts that the program is made of, read from its reports. */
final class Reports implements Trial {
    /** Of the mutants that a test reaches or ought to reach. */
    private static final double KILLED = 0.85;

    /**
     * Licences that someone has read, as the parts name them; the FIT SDK's own is spoken of in the README. A part under
     * another one stops here.
     */
    private static final Set<String> LICENCES = Set.of(
            "Apache-2.0",
            "BSD-2-Clause",
            "MIT",
            "The MIT License(MIT)",
            "Flexible and Interoperable Data Transfer (FIT) Protocol License Agreement");

    @Override
    public List<Tried> on(Site site) throws Exception {
        List<Tried> table = new ArrayList<>();
        table.add(parts(site));
        table.add(coverage(site));
        table.addAll(mutants(site));
        table.add(noNetwork(site));
        return table;
    }

    @SuppressWarnings("unchecked") // a JSON object's keys are texts
    private static Tried parts(Site site) throws IOException {
        String what = "parts of the program: version pinned, licence known";
        Path bom = site.build().resolve("bom.json");
        if (!Files.exists(bom)) {
            return Tried.skipped(what, "no list of parts was made");
        }
        List<String> lost = new ArrayList<>();
        Map<String, Integer> licences = new TreeMap<>();
        List<Object> parts = (List<Object>)
                Objects.requireNonNull(JSON.std.mapFrom(Files.readString(bom)).get("components"));
        for (Object part : parts) {
            Map<String, Object> fields = (Map<String, Object>) part;
            String name = fields.get("name") + " " + fields.get("version");
            if (!String.valueOf(fields.get("version")).matches("\\d[\\w.-]*")) {
                lost.add(name + " has no fixed version");
            }
            String licence = licence(fields);
            licences.merge(licence, 1, Integer::sum);
            if (!LICENCES.contains(licence)) {
                lost.add(name + " is under " + licence);
            }
        }
        return new Tried(what, parts.size(), lost, licences.toString());
    }

    private static String licence(Map<String, Object> part) {
        String text = String.valueOf(part.get("licenses"));
        Matcher id = Pattern.compile("\\bid=([^,}]+)|\\burl=([^,}]+)|\\bname=([^,}]+)")
                .matcher(text);
        if (!id.find()) {
            return "none";
        }
        return id.group(1) != null ? id.group(1) : id.group(2) != null ? id.group(2) : id.group(3);
    }

    private static Tried coverage(Site site) throws IOException {
        String what = "lines of the program, reached by tests";
        Path csv = site.build().resolve("site/jacoco/jacoco.csv");
        if (!Files.exists(csv)) {
            return Tried.skipped(what, "the tests were left out");
        }
        long[] sums = new long[4];
        List<String> lines = Files.readAllLines(csv);
        for (String line : lines.subList(1, lines.size())) {
            String[] cells = line.split(",", -1);
            for (int i = 0; i < sums.length; i++) {
                sums[i] += Long.parseLong(cells[5 + i]);
            }
        }
        return new Tried(
                what,
                sums[2] + sums[3],
                List.of(),
                String.format(
                        Locale.ROOT,
                        "%.1f %% of lines, %.1f %% of branches",
                        100.0 * sums[3] / (sums[2] + sums[3]),
                        100.0 * sums[1] / (sums[0] + sums[1])));
    }

    private static List<Tried> mutants(Site site) throws IOException {
        String what = "mutants of the models";
        Path xml = site.build().resolve("pit-reports/mutations.xml");
        if (!Files.exists(xml)) {
            return List.of(Tried.skipped(what, "long form only"));
        }
        Map<String, int[]> packages = new TreeMap<>();
        Matcher mutant = Pattern.compile(
                        "<mutation detected='(true|false)' status='(\\w+)'.*?<mutatedClass>chainage\\.(\\w+)\\.",
                        Pattern.DOTALL)
                .matcher(Files.readString(xml));
        while (mutant.find()) {
            if (mutant.group(2).equals("RUN_ERROR")) {
                continue; // not tried: its virtual machine failed
            }
            int[] counts = packages.computeIfAbsent(mutant.group(3), k -> new int[2]);
            counts[0]++;
            counts[1] += mutant.group(1).equals("true") ? 1 : 0;
        }
        List<Tried> rows = new ArrayList<>();
        packages.forEach((name, counts) -> rows.add(new Tried(
                what + ": " + name,
                counts[0],
                counts[1] >= KILLED * counts[0] ? List.of() : List.of("only " + counts[1] + " killed"),
                String.format(Locale.ROOT, "%.0f %% killed", 100.0 * counts[1] / counts[0]))));
        return rows;
    }

    /** The demo season in a space without any network, not even the machine's own. */
    private static Tried noNetwork(Site site) throws IOException, InterruptedException {
        String what = "the demo season without any network";
        if (DiskTrial.run("unshare", "-n", "true") != 0 && DiskTrial.run("unshare", "-rn", "true") != 0) {
            return Tried.skipped(what, "no space without network can be made here");
        }
        boolean root = DiskTrial.run("unshare", "-n", "true") == 0;
        Program.Ended ended = site.on(site.work().resolve("none.sqlite"))
                .after("unshare", root ? "-n" : "-rn")
                .run("demo", "--folder", site.work().resolve("demo").toString());
        return new Tried(
                what,
                1,
                ended.code() == 0 && ended.out().contains("Nearest its limit") ? List.of() : List.of("" + ended),
                "");
    }
}
