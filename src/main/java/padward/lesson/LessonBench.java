package padward.lesson;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import padward.base.Progress;
import padward.breakout.Answer;
import padward.breakout.Asker;
import padward.breakout.Hop;
import padward.breakout.Keeping;
import padward.breakout.Question;
import padward.breakout.Way;
import padward.breakout.WhyBlocked;
import padward.design.Design;
import padward.design.Edit;
import padward.design.Net;
import padward.design.Trial;

/**
 * Does deeds without a window, as the window would do them: serves to prove that a lesson can be
 * solved. Belongs to one thread.
 */
public final class LessonBench {
    private final Design original;
    private final List<WindowState.Kept> kept = new ArrayList<>();
    private Design now;
    private Optional<Answer> answer = Optional.empty();
    private int option;
    private Optional<Integer> hop = Optional.empty();
    private Optional<WindowState.Tried> trial = Optional.empty();

    /** A bench with a design on it. */
    public LessonBench(Design design) {
        original = design;
        now = design;
    }

    /** The state that the deeds have led to. */
    public WindowState state() {
        return new WindowState(
                original, now, answer, clearance(), way(), hop, trial, List.copyOf(kept));
    }

    private Optional<WhyBlocked.Option> clearance() {
        return answer.flatMap(a -> a instanceof Answer.Blocked b ? b.why() : Optional.empty())
                .map(WhyBlocked::options)
                .filter(all -> option < all.size())
                .map(all -> all.get(option));
    }

    private Optional<Way> way() {
        Optional<Answer> shown = trial.isPresent() ? trial.map(t -> t.after()) : answer;
        if (trial.isEmpty() && clearance().isPresent()) {
            return clearance().map(WhyBlocked.Option::way);
        }
        return shown.flatMap(Answer::findWay);
    }

    /**
     * Does something.
     *
     * @return why it cannot be done now; empty when it has been done
     */
    public Optional<String> act(Deed deed) {
        if (deed instanceof Deed.Ask ask) {
            return ask(ask);
        }
        if (deed instanceof Deed.ChooseHop choose) {
            return choose(choose.vertex());
        }
        if (deed instanceof Deed.LookAtClearance look) {
            option = look.index();
            hop = Optional.empty();
            return clearance().isPresent()
                    ? Optional.empty()
                    : Optional.of("there is no clearance " + (look.index() + 1));
        }
        if (deed instanceof Deed.TryIt) {
            return tryOut();
        }
        if (deed instanceof Deed.Keep) {
            return keep();
        }
        if (deed instanceof Deed.Drop) {
            trial = Optional.empty();
            return Optional.empty();
        }
        return undo();
    }

    private Optional<String> ask(Deed.Ask ask) {
        Optional<Net> net = now.findNet(ask.net());
        List<Integer> pads = Condition.pads(now, ask.pad());
        if (net.isEmpty() || pads.size() != 1) {
            return Optional.of(
                    net.isEmpty() ? "there is no net " + ask.net() : "no one pad is " + ask.pad());
        }
        answered(Asker.ask(new Question(now, net.get(), pads.get(0), ask.corner()), Progress.NONE));
        return Optional.empty();
    }

    private void answered(Answer next) {
        answer = Optional.of(next);
        option = 0;
        hop = Optional.empty();
        trial = Optional.empty();
    }

    private Optional<String> choose(String vertex) {
        if (way().isPresent()) {
            List<Hop> hops = way().get().hops();
            for (int i = 0; i < hops.size(); i++) {
                if (hops.get(i).name().equals(vertex)) {
                    hop = Optional.of(i);
                    return Optional.empty();
                }
            }
        }
        return Optional.of("the way has no hop " + vertex);
    }

    private Optional<String> tryOut() {
        List<Edit> edits = List.of();
        if (answer.orElse(null) instanceof Answer.Open open) {
            edits = Keeping.of(open);
        } else if (answer.orElse(null) instanceof Answer.Blocked blocked
                && clearance().isPresent()) {
            edits = Keeping.of(blocked, clearance().get());
        }
        if (edits.isEmpty()) {
            return Optional.of("there is nothing to try");
        }
        Question question = answer.orElseThrow().question();
        Design tried = Trial.of(now, edits);
        Net net = tried.findNet(question.net().name()).orElseThrow();
        Answer after =
                Asker.ask(
                        new Question(tried, net, question.pad(), question.corner()), Progress.NONE);
        trial = Optional.of(new WindowState.Tried(edits, after));
        return Optional.empty();
    }

    private Optional<String> keep() {
        if (trial.isEmpty()) {
            return Optional.of("no trial waits");
        }
        Answer after = trial.get().after();
        Question question = after.question();
        kept.add(
                new WindowState.Kept(
                        question.net().name(), question.padValue().name(), trial.get().edits()));
        now = question.design();
        answered(after);
        return Optional.empty();
    }

    private Optional<String> undo() {
        if (kept.isEmpty()) {
            return Optional.of("nothing is kept");
        }
        kept.remove(kept.size() - 1);
        now = original;
        kept.forEach(k -> now = Trial.of(now, k.edits()));
        answer.map(Answer::question)
                .ifPresent(q -> ask(new Deed.Ask(q.net().name(), q.padValue().name(), q.corner())));
        return Optional.empty();
    }
}
