//! The contacts of the handshakes. A cut cable reads as open, which means no: that is the safe
//! direction of IPC-SMEMA-9851. A contact that sticks closed means yes, whatever is true.

use super::{Contact, Fault};
use crate::{Machine, Side, State};

impl Machine {
    /// Whether a contact is at fault, and how it stays: closed, or open.
    #[inline]
    pub fn contact_fault(&self, s: &State, contact: Contact) -> Option<bool> {
        if s.faults.present == 0 {
            return None;
        }
        self.contact_fault_present(s, contact)
    }

    #[cold]
    #[inline(never)]
    fn contact_fault_present(&self, s: &State, contact: Contact) -> Option<bool> {
        self.present(s).find_map(|fault| match fault {
            Fault::Contact {
                contact: name,
                closed,
            } if name == contact => Some(closed),
            _ => None,
        })
    }

    /// The neighbour's signal at a side, as our controller reads it.
    #[inline]
    pub fn signal_read(&self, s: &State, side: Side) -> bool {
        let contact = match side {
            Side::Infeed => Contact::UpstreamAvailable,
            Side::Outfeed => Contact::DownstreamReady,
        };
        let truth = s.neighbour_signal(side);
        self.contact_fault(s, contact).unwrap_or(truth)
    }

    /// Our signal at a side, as the neighbour reads it.
    pub fn signal_given(&self, s: &State, side: Side) -> bool {
        let (contact, own) = match side {
            Side::Infeed => (Contact::OwnReady, s.machine_ready),
            Side::Outfeed => (Contact::OwnAvailable, s.board_available),
        };
        self.contact_fault(s, contact).unwrap_or(own)
    }

    /// Whether the lamps at the two ends of a cable differ.
    pub fn lamps_differ(&self, s: &State, contact: Contact) -> bool {
        let side = contact.side();
        match contact {
            Contact::UpstreamAvailable | Contact::DownstreamReady => {
                self.signal_read(s, side) != s.neighbour_signal(side)
            }
            Contact::OwnReady => self.signal_given(s, side) != s.machine_ready,
            Contact::OwnAvailable => self.signal_given(s, side) != s.board_available,
        }
    }

    /// Whether the machine downstream runs its belts for a board that we send: both contacts must
    /// be closed in truth.
    pub(crate) fn downstream_takes(&self, s: &State) -> bool {
        let ready = Contact::DownstreamReady;
        let lied_to = self.contact_fault(s, ready).is_some() && !s.downstream_ready;
        let cut = self.contact_fault(s, Contact::OwnAvailable) == Some(false);
        !lied_to && !cut && !s.beyond.stands
    }

    /// Whether the machine upstream runs its belts when we take in.
    pub(crate) fn upstream_gives(&self, s: &State) -> bool {
        self.contact_fault(s, Contact::OwnReady) != Some(false)
    }
}
