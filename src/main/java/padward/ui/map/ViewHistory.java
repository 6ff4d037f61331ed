package padward.ui.map;

import java.util.ArrayDeque;
import java.util.Deque;
import padward.ui.draw.Viewport;

/** Which part of the map is looked at, and the places from which one has jumped. */
final class ViewHistory {
    private static final int MOST_PLACES = 50;

    private final Deque<Viewport> before = new ArrayDeque<>();
    private final Deque<Viewport> ahead = new ArrayDeque<>();
    private Viewport view = new Viewport(1, 1, 0, 0, 40);

    Viewport view() {
        return view;
    }

    /** Looks elsewhere without leaving a place to come back to: a step, a turn of the wheel. */
    void look(Viewport next) {
        view = next;
    }

    /** Goes somewhere else, from where one may come back. */
    void jump(Viewport next) {
        if (!next.equals(view)) {
            before.push(view);
            while (before.size() > MOST_PLACES) {
                before.removeLast();
            }
            ahead.clear();
        }
        view = next;
    }

    /** Back to the place before the last jump. */
    void back() {
        if (!before.isEmpty()) {
            ahead.push(view);
            view = before.pop().resized(view.width(), view.height());
        }
    }

    /** Forward again. */
    void forward() {
        if (!ahead.isEmpty()) {
            before.push(view);
            view = ahead.pop().resized(view.width(), view.height());
        }
    }

    /** Forgets all places, as for another fabric. */
    void forget() {
        before.clear();
        ahead.clear();
    }
}
