package chainage.intake;

import chainage.course.Course;
import chainage.course.Profile;
import chainage.course.RoadNote;
import chainage.ridefile.RideFileException;
import chainage.ridefile.RideFiles;
import chainage.typed.CliError;
import chainage.typed.ExitCode;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/** A course, or a ride over it, from a file. */
public final class CourseFile {
    private CourseFile() {}

    /**
     * Reads it.
     *
     * @param windSpeed metres a second
     * @param from where the wind comes from, degrees
     * @param limit speed above which one brakes, metres a second
     */
    public static Course read(Path path, double windSpeed, double from, double limit) {
        Profile profile;
        try {
            profile = Profile.of(RideFiles.track(Files.readAllBytes(path)).points(), windSpeed, from);
        } catch (NoSuchFileException e) {
            throw new CliError(ExitCode.NO_SUCH_FILE, "\"" + path.toString() + "\" does not exist", "check the path");
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        } catch (RideFileException e) {
            throw new CliError(ExitCode.REFUSED, path.toString() + ": " + e.what(), e.hint());
        }
        if (profile.legs().isEmpty()) {
            throw new CliError(
                    ExitCode.REFUSED,
                    path.toString() + ": its points cover less than 10 m",
                    "export the course with its track");
        }
        List<RoadNote> notes = new ArrayList<>(profile.notes());
        notes.add(new RoadNote.Climbed(profile.ascentMetres()));
        return new Course(profile.legs(), notes, true, limit);
    }
}
