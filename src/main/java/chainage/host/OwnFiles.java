package chainage.host;

import chainage.store.file.WholeFile;
import java.io.IOException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeSet;

/**
 * The program's own files below a prefix: itself, its manual pages, its completions. Each is told from another's by a
 * mark in it.
 *
 * @param prefix the folder with bin and share in it
 * @param texts what is written beside the program, by place below the prefix; each with the mark in its first lines
 */
public record OwnFiles(Path prefix, Map<String, String> texts) {
    /** Stands in each text: what tells ours from another's. */
    public static final String MARK = "chainage: written by chainage install-self";

    private static final String PROGRAM = "bin/chainage";

    /** Stands in the first lines of the program, which are a script. */
    private static final String PROGRAM_MARK = "-Dchainage.program=";

    /** Where the program lies. */
    public Path program() {
        return prefix.resolve(PROGRAM);
    }

    /** All places below the prefix. */
    public List<String> names() {
        List<String> names = new ArrayList<>(List.of(PROGRAM));
        names.addAll(texts.keySet());
        return names;
    }

    /** The first file in our place that we did not write. */
    public Optional<Path> foreign() throws IOException {
        for (String name : names()) {
            Path file = prefix.resolve(name);
            if (Files.exists(file, LinkOption.NOFOLLOW_LINKS) && !isOurs(file)) {
                return Optional.of(file);
            }
        }
        return Optional.empty();
    }

    /** Those that are there, also such as only an earlier version wrote. */
    public List<Path> present() throws IOException {
        TreeSet<Path> folders = new TreeSet<>();
        texts.keySet().forEach(name -> folders.add(prefix.resolve(name).resolveSibling("")));
        List<Path> ours = new ArrayList<>();
        if (isOurs(program())) {
            ours.add(program());
        }
        for (Path folder : folders) {
            if (Files.isDirectory(folder)) {
                try (DirectoryStream<Path> named = Files.newDirectoryStream(folder, "{,_}chainage*")) {
                    for (Path file : named) {
                        if (isOurs(file)) {
                            ours.add(file);
                        }
                    }
                }
            }
        }
        return ours.stream().sorted().toList();
    }

    /**
     * Writes them all, and deletes what only an earlier version had.
     *
     * @param from the program to copy; may be the one that is there
     */
    public void write(Path from) throws IOException {
        if (!Files.exists(program()) || !Files.isSameFile(from, program())) {
            write(program(), "rwxr-xr-x", part -> Files.copy(from, part, StandardCopyOption.REPLACE_EXISTING));
        }
        for (Map.Entry<String, String> text : texts.entrySet()) {
            write(prefix.resolve(text.getKey()), "rw-r--r--", part -> Files.writeString(part, text.getValue()));
        }
        for (Path file : present()) {
            if (!names().contains(prefix.relativize(file).toString())) {
                Files.delete(file);
            }
        }
    }

    /** Deletes those that are there, and the folders that are empty then. */
    public void remove() throws IOException {
        TreeSet<Path> folders = new TreeSet<>();
        for (Path file : present()) {
            Files.delete(file);
            for (Path f = file.getParent(); f != null && !f.equals(prefix); f = f.getParent()) {
                folders.add(f);
            }
        }
        // Deepest first.
        folders.descendingSet().forEach(Machine::deleteEmpty);
    }

    /** True for a copy of the program as it can be started by itself. */
    public static boolean isProgram(Path file) throws IOException {
        return Files.isRegularFile(file) && OutputFile.isMarked(file, PROGRAM_MARK);
    }

    private static boolean isOurs(Path file) throws IOException {
        return Files.isRegularFile(file, LinkOption.NOFOLLOW_LINKS)
                && (OutputFile.isMarked(file, MARK) || OutputFile.isMarked(file, PROGRAM_MARK));
    }

    /** Whole or not at all, so that a program that runs from there is never half of one and half of another. */
    private static void write(Path file, String mode, WholeFile.Filling filling) throws IOException {
        Files.createDirectories(file.resolveSibling(""));
        WholeFile.replace(file, mode, filling);
    }
}
