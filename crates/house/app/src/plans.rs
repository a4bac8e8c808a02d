//! Plans are worked out on threads of their own: who waits for one holds no lock, sees how far it is, and whoever no
//! longer waits lets it stop.

use std::sync::{Arc, Condvar, Mutex, MutexGuard, PoisonError};
use std::thread;
use std::time::{Duration, Instant};

use quantity::{Fault, Faults};
use recipe::{Answer, Progress};
use setup::Setup;

/// An answer, shared.
pub type Follows = Arc<Result<Answer, Faults>>;

/// What works out an answer: it asks before each plan whether to go on.
pub type Work = fn(&Setup, &mut dyn FnMut(Progress) -> bool) -> Option<Result<Answer, Faults>>;

/// How long an answer is worked on after the last one who waited for it went away.
const FORGOTTEN: Duration = Duration::from_secs(5);

/// Answers that are being worked out.
pub struct Plans {
    work: Work,
    jobs: Mutex<Vec<Job>>,
    news: Condvar,
}

/// One of them.
struct Job {
    text: String,
    progress: Progress,
    /// When somebody last waited for it.
    wanted: Instant,
    answer: Option<Follows>,
}

/// What a wait came to.
pub enum Waited {
    /// The answer.
    Done(Follows),
    /// It takes longer.
    Working(Progress),
}

impl Plans {
    /// Nothing is worked out yet.
    pub fn new(work: Work) -> Arc<Plans> {
        Arc::new(Plans { work, jobs: Mutex::default(), news: Condvar::new() })
    }

    /// Wait for the answer to a setup, at most for `patience`; `None`: as long as it takes. The first who asks starts it.
    pub fn wait(self: &Arc<Plans>, setup: &Setup, patience: Option<Duration>) -> Waited {
        let since = Instant::now();
        let mut jobs = self.jobs();
        loop {
            let Some(at) = jobs.iter().position(|job| job.text == setup.text()) else {
                self.start(&mut jobs, setup);
                continue;
            };
            if let Some(answer) = &jobs[at].answer {
                return Waited::Done(Arc::clone(answer));
            }
            jobs[at].wanted = Instant::now();
            let left = patience.map(|patience| patience.saturating_sub(since.elapsed()));
            if left == Some(Duration::ZERO) {
                return Waited::Working(jobs[at].progress);
            }
            // Woken at least this often, so that it is not taken for forgotten.
            let nap = left.unwrap_or(FORGOTTEN / 4).min(FORGOTTEN / 4);
            jobs = self.news.wait_timeout(jobs, nap).unwrap_or_else(PoisonError::into_inner).0;
        }
    }

    /// How many answers are being worked out.
    pub fn working(&self) -> usize {
        self.jobs().iter().filter(|job| job.answer.is_none()).count()
    }

    fn start(self: &Arc<Plans>, jobs: &mut Vec<Job>, setup: &Setup) {
        // What was finished stays a while for others who wait beside the first.
        jobs.retain(|job| job.answer.is_none() || job.wanted.elapsed() < FORGOTTEN);
        let text = setup.text().to_owned();
        jobs.push(Job { text, progress: Progress::default(), wanted: Instant::now(), answer: None });
        let (plans, setup) = (Arc::clone(self), setup.clone());
        thread::spawn(move || {
            let job = Running { plans: &plans, text: setup.text() };
            if let Some(answer) = (plans.work)(&setup, &mut |progress| job.goes_on(progress)) {
                job.done(answer);
            }
        });
    }

    fn jobs(&self) -> MutexGuard<'_, Vec<Job>> {
        self.jobs.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

/// A job as its thread sees it. If the thread ends without an answer the job goes, so that the next one starts it anew.
struct Running<'a> {
    plans: &'a Plans,
    text: &'a str,
}

impl Running<'_> {
    fn goes_on(&self, progress: Progress) -> bool {
        let mut jobs = self.plans.jobs();
        let Some(job) = jobs.iter_mut().find(|job| job.text == self.text) else { return false };
        job.progress = progress;
        job.wanted.elapsed() < FORGOTTEN
    }

    fn done(&self, answer: Result<Answer, Faults>) {
        let mut jobs = self.plans.jobs();
        if let Some(job) = jobs.iter_mut().find(|job| job.text == self.text) {
            job.answer = Some(Arc::new(answer));
        }
    }
}

impl Drop for Running<'_> {
    fn drop(&mut self) {
        if thread::panicking() {
            // Told, and not tried again and again.
            let broke =
                Fault::new("something in Tapmere broke while this was worked out").hint("take your last change back");
            self.done(Err(broke.into()));
        }
        self.plans.jobs().retain(|job| job.text != self.text || job.answer.is_some());
        self.plans.news.notify_all();
    }
}
