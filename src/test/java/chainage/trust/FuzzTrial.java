package chainage.trust;

import java.io.File;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/**
 * A fuzzer that is guided by coverage makes inputs for everything the program reads, in a virtual machine of 256 MB: no
 * exception but a refusal, no two seconds of computing for one input, no more memory. As many run side by side as the
 * machine has processors. What one run learns is kept in the build folder for the next.
 */
final class FuzzTrial implements Trial {
    private static final Pattern RUNS = Pattern.compile("stat::number_of_executed_units: +(\\d+)");
    /**
     * What the fuzzer would watch or help with at five to ten times the time: SQL and patterns, which are constants of
     * ours; the one name that is put into a pattern is quoted.
     */
    private static final List<String> UNWATCHED = List.of("RegexInjection", "RegexRoadblocks", "SqlInjection");

    private static final Pattern FOUND = Pattern.compile("== Java Exception: (.*)|ERROR: libFuzzer: (.*)");

    @Override
    public List<Tried> on(Site site) throws Exception {
        ExecutorService sideBySide =
                Executors.newFixedThreadPool(Runtime.getRuntime().availableProcessors());
        try {
            List<Future<Tried>> running = new ArrayList<>();
            for (Hostile input : Hostile.values()) {
                running.add(sideBySide.submit(() -> fuzz(site, input)));
            }
            List<Tried> table = new ArrayList<>();
            for (Future<Tried> one : running) {
                table.add(one.get());
            }
            return table;
        } finally {
            sideBySide.shutdownNow();
        }
    }

    private static Tried fuzz(Site site, Hostile input) throws IOException, InterruptedException {
        String name = input.name().toLowerCase(Locale.ROOT);
        Path corpus = Files.createDirectories(site.build().resolve("fuzz").resolve(name));
        Path log = site.build().resolve("fuzz").resolve(name + ".txt");
        List<String> command = new ArrayList<>(List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-Xmx256m",
                "-XX:+UseSerialGC",
                "-Dtrust.input=" + name,
                "-cp",
                System.getProperty("java.class.path"),
                "com.code_intelligence.jazzer.Jazzer",
                "--target_class=" + HostileTarget.class.getName(),
                "--instrumentation_includes=chainage.**:com.garmin.fit.**:de.siegmar.**",
                "--disabled_hooks="
                        + UNWATCHED.stream()
                                .map("com.code_intelligence.jazzer.sanitizers."::concat)
                                .collect(Collectors.joining(File.pathSeparator)),
                "--reproducer_path=" + corpus.getParent(),
                "-artifact_prefix=" + corpus.getParent() + "/" + name + "-",
                "-seed=" + site.seed(),
                "-max_len=8192",
                // By the clock, for what computes nothing and waits; the target counts the processor's time.
                "-timeout=60",
                "-rss_limit_mb=0",
                "-print_final_stats=1",
                site.isLong() ? "-runs=5000000" : "-max_total_time=60"));
        command.add(corpus.toString());
        command.add(input.folder().toString());
        Process process = new ProcessBuilder(command)
                .redirectErrorStream(true)
                .redirectOutput(log.toFile())
                .start();
        List<String> lost = new ArrayList<>();
        try {
            if (!process.waitFor(site.times(5, 180), TimeUnit.MINUTES)) {
                lost.add("the fuzzer did not end");
            }
        } finally {
            process.destroyForcibly().waitFor();
        }
        String said = Files.readString(log, java.nio.charset.StandardCharsets.ISO_8859_1);
        Matcher runs = RUNS.matcher(said);
        long times = runs.find() ? Long.parseLong(runs.group(1)) : 0;
        Matcher found = FOUND.matcher(said);
        while (found.find()) {
            lost.add(found.group());
        }
        if (times == 0 || (process.exitValue() != 0 && lost.isEmpty())) {
            lost.add("exit " + process.exitValue() + ", see " + log);
        }
        Site.say("fuzzed: %s, %,d times", name, times);
        return new Tried("fuzzed: " + name, times, lost, "");
    }
}
