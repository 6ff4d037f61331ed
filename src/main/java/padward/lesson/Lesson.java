package padward.lesson;

import java.util.List;

/**
 * A lesson as read from its file.
 *
 * @param number its place in the course
 * @param name short name, used on the command line and for remembering progress
 * @param title its title
 * @param goal what the learner can do afterwards, as a sentence
 * @param design file name of the design, relative to the lesson's file
 * @param steps its tasks, in order
 * @param why why it matters, as a paragraph
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
