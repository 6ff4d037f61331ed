package padward.lesson;

import java.util.List;
import padward.base.Xml;
import padward.lesson.exercise.ExerciseKind;

/** A learner's progress as one page to print. */
public final class LearnerPage {
    private static final String STYLE =
            "body{font-family:sans-serif;color:#24292f;background:#fff;margin:2em;max-width:50em}"
                    + "table{border-collapse:collapse;width:100%}"
                    + "th,td{border:1px solid #8b8f96;padding:4px 8px;text-align:left}"
                    + "th{background:#efece5}";

    private LearnerPage() {}

    /** The page, HTML in UTF-8. */
    public static String of(LearnerRecord learner, List<Lesson> lessons) {
        StringBuilder out = new StringBuilder();
        String title = Xml.escaped("Lessons and exercises: " + learner.learner());
        out.append("<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\"><title>")
                .append(title)
                .append("</title><style>")
                .append(STYLE)
                .append("</style></head><body>\n<h1>")
                .append(title)
                .append("</h1>\n<table id=\"lessons\"><tr><th></th><th>Lesson</th><th>Goal</th>")
                .append("<th>Progress</th></tr>\n");
        for (Lesson lesson : lessons) {
            out.append("<tr>");
            cell(out, String.valueOf(lesson.number()));
            cell(out, lesson.title());
            cell(out, lesson.goal());
            cell(out, LessonText.progress(learner, lesson));
            out.append("</tr>\n");
        }
        out.append("</table>\n<h2>Exercises</h2>\n<table id=\"exercises\">");
        for (ExerciseKind kind : ExerciseKind.values()) {
            out.append("<tr>");
            cell(out, kind.title());
            cell(out, LessonText.score(learner, kind));
            out.append("</tr>\n");
        }
        return out.append("</table>\n</body></html>\n").toString();
    }

    private static void cell(StringBuilder out, String text) {
        out.append("<td>").append(Xml.escaped(text)).append("</td>");
    }
}
