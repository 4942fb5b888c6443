package journey

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"os/exec"
)

// driver is what steers a browser. It takes the commands of the W3C standard as they go over HTTP: method, path, body.
type driver interface {
	call(method, path string, body, result any) error
	stop() error // ends the browser too
}

// Refusal is the driver's answer to a command that it could not carry out.
type Refusal struct {
	Code    string `json:"error"` // as the standard names it: "no such element"
	Message string `json:"message"`
}

func (r *Refusal) Error() string { return r.Code + ": " + r.Message }

// server is a driver that is a program of its own, run by us on a loopback port.
type server struct {
	address string
	program *process
	client  *http.Client
}

// startServer tries a few ports: between finding a free one and the driver taking it, another program may.
func startServer(program string, arguments func(port int) []string, environment []string) (*server, error) {
	for try := 1; ; try++ {
		port, err := freePort()
		if err != nil {
			return nil, err
		}
		command := exec.Command(program, arguments(port)...)
		command.Env = append(os.Environ(), environment...)
		s, err := runServer(command, port)
		if err == nil || try == 3 {
			return s, err
		}
	}
}

func freePort() (int, error) {
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		return 0, err
	}
	defer listener.Close()
	return listener.Addr().(*net.TCPAddr).Port, nil
}

func runServer(command *exec.Cmd, port int) (*server, error) {
	program, err := run(command)
	if err != nil {
		return nil, err
	}
	s := &server{
		address: fmt.Sprintf("http://127.0.0.1:%d", port),
		program: program,
		// No proxy: the driver is on this machine.
		client: &http.Client{Transport: &http.Transport{}, Timeout: 2 * Patience},
	}
	if err := s.waitReady(); err != nil {
		s.stop()
		return nil, fmt.Errorf("%s: %w; it said: %s", command.Path, err, program.said)
	}
	return s, nil
}

func (s *server) waitReady() error {
	return until("the driver is ready", func() (bool, error) {
		if s.program.hasEnded() {
			return false, errors.New("the driver ended")
		}
		var status struct{ Ready bool }
		err := s.call("GET", "/status", nil, &status)
		return err == nil && status.Ready, nil
	})
}

func (s *server) stop() error {
	err := s.program.stop()
	s.client.CloseIdleConnections()
	return err
}

func (s *server) call(method, path string, body, result any) error {
	var sent io.Reader
	if body != nil {
		encoded, err := json.Marshal(body)
		if err != nil {
			return err
		}
		sent = bytes.NewReader(encoded)
	}
	request, err := http.NewRequest(method, s.address+path, sent)
	if err != nil {
		return err
	}
	request.Header.Set("Content-Type", "application/json; charset=utf-8")
	response, err := s.client.Do(request)
	if err != nil {
		return err
	}
	defer response.Body.Close()
	return decode(response, method+" "+path, result)
}

func decode(response *http.Response, command string, result any) error {
	var reply struct{ Value json.RawMessage }
	if err := json.NewDecoder(response.Body).Decode(&reply); err != nil {
		return fmt.Errorf("%s: the driver's answer is not JSON: %w", command, err)
	}
	if response.StatusCode != http.StatusOK {
		refusal := &Refusal{}
		if err := json.Unmarshal(reply.Value, refusal); err != nil {
			return fmt.Errorf("%s: status %d", command, response.StatusCode)
		}
		return refusal
	}
	if result == nil {
		return nil
	}
	return json.Unmarshal(reply.Value, result)
}
