package padward.lesson;

import java.util.List;

/**
 * A lesson, as its file says it.
 *
 * @param number its place in the course
 * @param name short name, by which it is called and remembered
 * @param title its title
 * @param goal what the learner can do afterwards, a sentence
 * @param design name of the design's file, relative to the lesson's
 * @param steps its tasks, in order
 * @param why why it matters, a paragraph
 * @param sources the literature
 */
public record Lesson(
        int number,
        String name,
        String title,
        String goal,
        String design,
        List<LessonStep> steps,
        String why,
        List<String> sources) {
    /** Copies the lists. */
    public Lesson {
        steps = List.copyOf(steps);
        sources = List.copyOf(sources);
    }
}
