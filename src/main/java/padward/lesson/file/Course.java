package padward.lesson.file;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import padward.base.BadInput;
import padward.base.Progress;
import padward.design.Design;
import padward.format.json.FileHeader;
import padward.format.source.Source;
import padward.format.source.Text;
import padward.lesson.Lesson;

/**
 * Lessons in their order, each with its source.
 *
 * @param places the lessons, by their numbers
 */
public record Course(List<Place> places) {
    private static final String FOLDER = "/padward/fixtures/lessons/";
    private static final List<String> BUILT_IN =
            List.of(
                    "01-boxes",
                    "02-strip-map",
                    "03-branching",
                    "04-io-register",
                    "05-enable",
                    "06-unblocking",
                    "07-skew",
                    "08-cautions",
                    "09-trigger");

    /**
     * A lesson and its source.
     *
     * @param source the file or resource that it was read from
     * @param lesson the lesson
     */
    public record Place(Source source, Lesson lesson) {
        /** Reads the design that the lesson is about. */
        public Design design(Progress progress) throws BadInput {
            return LessonReader.design(source, lesson, progress);
        }
    }

    /** Copies the places. */
    public Course {
        places = List.copyOf(places);
    }

    /** The lessons in their order. */
    public List<Lesson> lessons() {
        return places.stream().map(Place::lesson).toList();
    }

    /**
     * The lessons that come with the program.
     *
     * @throws BadInput when they are missing from the program
     */
    public static Course builtIn() throws BadInput {
        List<Source> sources =
                BUILT_IN.stream().map(n -> Source.ofResource(FOLDER + n + ".json")).toList();
        return of(sources);
    }

    /**
     * The lessons in a folder: all files whose names end in {@code .json} that say they are
     * lessons.
     *
     * @throws BadInput when one has a fault, two share a name, or there is none
     */
    public static Course in(Path folder) throws BadInput {
        List<Source> sources = new ArrayList<>();
        try (Stream<Path> files = Files.list(folder)) {
            for (Path file : files.sorted().toList()) {
                Source source = Source.of(file);
                if (file.toString().endsWith(".json")
                        && FileHeader.read(source).format().equals(FileHeader.LESSON)) {
                    sources.add(source);
                }
            }
        } catch (IOException fault) {
            throw new BadInput(folder.toString(), "", "a folder of lessons", "none");
        }
        if (sources.isEmpty()) {
            throw new BadInput(folder.toString(), "", "lessons, files *.json", "none");
        }
        return of(sources);
    }

    private static Course of(List<Source> sources) throws BadInput {
        List<Place> places = new ArrayList<>();
        Set<String> names = new HashSet<>();
        for (Source source : sources) {
            Lesson lesson = LessonReader.read(source, Progress.NONE);
            if (!names.add(lesson.name())) {
                throw new BadInput(
                        source.label(),
                        "$.name",
                        "a name that only one lesson has",
                        Text.quote(lesson.name()) + " again");
            }
            places.add(new Place(source, lesson));
        }
        places.sort(Comparator.comparingInt(p -> p.lesson().number()));
        return new Course(places);
    }

    /** The lesson of that name, or of that number. */
    public Optional<Place> find(String nameOrNumber) {
        return places.stream()
                .filter(
                        p ->
                                p.lesson().name().equals(nameOrNumber)
                                        || String.valueOf(p.lesson().number()).equals(nameOrNumber))
                .findFirst();
    }
}
